/** Work on files that are no designs: a model becomes a design, a recording becomes measured notes. */
import { basename } from "node:path";
import { analyse } from "../../design/predict/analyse.js";
import { CannotRekey } from "../../design/rekey/rekeyResult.js";
import type { AnalysisSettings } from "../../design/settings.js";
import { surveyedDesign } from "../../design/survey/surveyedDesign.js";
import type { DesignFile } from "../../document/designFile.js";
import type { TextEdit } from "../../document/textEdit.js";
import { FileTrouble } from "../../files/fileTrouble.js";
import { readBytes } from "../../files/readText.js";
import { hearRecording } from "../../listen/hearRecording.js";
import { measuredEdits } from "../../listen/measuredEdits.js";
import { NotReadable } from "../../sound/wavHeader.js";
import { MOST_MESH_BYTES, readMesh } from "../../survey/file/readMesh.js";
import { CannotSurvey } from "../../survey/refusal.js";
import { survey } from "../../survey/survey.js";

export interface FromFile {
  readonly edits: readonly TextEdit[];
  readonly says: readonly string[];
  readonly outOfTune: number;
}

/** The design as an edit of the empty text. @throws CannotRekey saying why it cannot be */
export function surveyedFile(file: string, settings: AnalysisSettings, shouldStop: () => boolean): FromFile {
  return told(() => {
    const found = survey(readMesh(readBytes(file, MOST_MESH_BYTES), file));
    const unit = found.unit.name === "in" && found.unit.isStated ? "in" : "mm";
    const name = basename(file).replace(/\.\w+$/, "");
    const { text, analysis } = surveyedDesign(found, name, unit, settings, { shouldStop });
    return {
      edits: [{ span: { start: 0, end: 0 }, text }],
      says: [
        `${name}: ${analysis.fingerings.length} fingerings proposed, ${found.questions.length} questions asked at the end of the text.`,
        "The model is its maker's: respect its licence.",
      ],
      outOfTune: analysis.summary?.outOfTune ?? 0,
    };
  });
}

/** What was heard, in place of what was measured before. Rejects with CannotRekey saying why it cannot be. */
export async function heardFile(
  design: DesignFile,
  documentIndex: number,
  { file, temperature }: { readonly file: string; readonly temperature?: number },
  settings: AnalysisSettings,
): Promise<FromFile> {
  const document = design.documents[documentIndex];
  if (document === undefined) throw new CannotRekey("there is no such instrument in the file");
  const { instrument } = document.resolution;
  const analysis = analyse(instrument, settings);
  try {
    const result = await hearRecording(file, document, analysis, temperature);
    if (result === undefined) throw new CannotRekey("the design has no fingering that is predicted");
    const { heard, entries } = result;
    const asked = heard.matching.matches.filter(({ question }) => question !== undefined).length;
    if (heard.matching.doubtful)
      throw new CannotRekey("more than a third of the notes are in question: is this the design that was played?");
    const questions =
      asked === 0 ? [] : [`${asked} ${asked === 1 ? "note was" : "notes were"} in question and left out.`];
    return {
      edits: measuredEdits(document, entries, instrument.measured, true).edits,
      says: [`${entries.length} of ${analysis.fingerings.length} fingerings heard.`, ...questions],
      outOfTune: analysis.summary?.outOfTune ?? 0,
    };
  } catch (error) {
    throw inWords(error);
  }
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
