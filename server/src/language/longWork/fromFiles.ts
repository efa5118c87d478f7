/** Work on files that are not designs: a model becomes a design, a recording becomes measured notes. */
import { analyse } from "../../design/predict/analyse.js";
import { CannotRekey } from "../../design/rekey/rekeyResult.js";
import type { AnalysisSettings } from "../../design/settings.js";
import { surveyedDesign } from "../../design/survey/surveyedDesign.js";
import type { DesignFile } from "../../document/designFile.js";
import type { TextEdit } from "../../document/textEdit.js";
import { FileTrouble } from "../../files/fileTrouble.js";
import { hearRecording } from "../../listen/hearRecording.js";
import { measuredEdits } from "../../listen/measuredEdits.js";
import { NotReadable } from "../../sound/wavHeader.js";
import { MOST_MESH_BYTES, readMesh } from "../../survey/file/readMesh.js";
import { CannotSurvey } from "../../survey/refusal.js";
import { survey } from "../../survey/survey.js";
import { t } from "../../words/translation.js";

/** A file of the maker's. */
export interface MakersFile {
  /** Its path, or its name alone where the bytes are given. */
  readonly file: string;
  /** Its content, where it is not on a disk of this machine. */
  readonly bytes?: Uint8Array;
}

/** Reads files by their paths. */
export interface MakersFiles {
  /** @throws FileTrouble */
  read(file: string, mostBytes: number): Uint8Array;
  /** Rejects with FileTrouble. */
  chunks(file: string): AsyncIterable<Uint8Array>;
}

/** Where there is no disk: the bytes must have come along. */
export const ONLY_GIVEN: MakersFiles = { read: cannotRead, chunks: cannotRead };

function cannotRead(file: string): never {
  throw new FileTrouble(file, t("only the editor can read files here"));
}

export interface FromFile {
  readonly edits: readonly TextEdit[];
  readonly says: readonly string[];
  readonly outOfTune: number;
}

/** The design as an edit of the empty text. @throws CannotRekey saying why it cannot be */
export function surveyedFile(
  { file, bytes }: MakersFile,
  files: MakersFiles,
  settings: AnalysisSettings,
  shouldStop: () => boolean,
): FromFile {
  return told(() => {
    const found = survey(readMesh(bytes ?? files.read(file, MOST_MESH_BYTES), file));
    const unit = found.unit.name === "in" && found.unit.isStated ? "in" : "mm";
    const name = file.replace(/^.*[\\/]/, "").replace(/\.\w+$/, "");
    const { text, analysis } = surveyedDesign(found, name, unit, settings, { shouldStop });
    return {
      edits: [{ span: { start: 0, end: 0 }, text }],
      says: [
        t`${name}: ${analysis.fingerings.length} fingerings proposed, ${found.questions.length} questions asked at the end of the text.`,
        t("The model belongs to its maker: respect its licence."),
      ],
      outOfTune: analysis.summary?.outOfTune ?? 0,
    };
  });
}

/** What was heard, in place of what was measured before. Rejects with CannotRekey saying why it cannot be. */
export async function heardFile(
  design: DesignFile,
  documentIndex: number,
  { file, bytes, temperature }: MakersFile & { readonly temperature?: number },
  files: MakersFiles,
  settings: AnalysisSettings,
): Promise<FromFile> {
  const document = design.documents[documentIndex];
  if (document === undefined) throw new CannotRekey(t("there is no such instrument in the file"));
  const { instrument } = document.resolution;
  const analysis = analyse(instrument, settings);
  try {
    const result = await hearRecording(bytes ? inOne(bytes) : files.chunks(file), document, analysis, temperature);
    if (result === undefined) throw new CannotRekey(t("the design has no fingering that is predicted"));
    const { heard, entries } = result;
    const asked = heard.matching.matches.filter(({ question }) => question !== undefined).length;
    if (heard.matching.doubtful)
      throw new CannotRekey(t("more than a third of the notes are in question: is this the design that was played?"));
    const questions =
      asked === 0
        ? []
        : [asked === 1 ? t("1 note was in question and left out.") : t`${asked} notes were in question and left out.`];
    return {
      edits: measuredEdits(document, entries, instrument.measured, true).edits,
      says: [t`${entries.length} of ${analysis.fingerings.length} fingerings heard.`, ...questions],
      outOfTune: analysis.summary?.outOfTune ?? 0,
    };
  } catch (error) {
    throw inWords(error);
  }
}

async function* inOne(bytes: Uint8Array): AsyncGenerator<Uint8Array> {
  yield bytes;
}

function told<T>(work: () => T): T {
  try {
    return work();
  } catch (error) {
    throw inWords(error);
  }
}

function inWords(error: unknown): unknown {
  const isTold = error instanceof CannotSurvey || error instanceof FileTrouble || error instanceof NotReadable;
  return isTold ? new CannotRekey(error.message) : error;
}
