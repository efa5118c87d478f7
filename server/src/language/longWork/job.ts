/** Long work on a design, all of it plain data, so that it may be done on another thread. */

import { doneEdits } from "../../design/bench/doneEdits.js";
import { drawnFlatForBench } from "../../design/bench/drawFlat.js";
import { benchPlan } from "../../design/bench/plan.js";
import { planCommentEdits } from "../../design/bench/planComments.js";
import { airInWords, leftInWords, stepInWords } from "../../design/bench/wording.js";
import { corrected } from "../../design/calibrate/correct.js";
import type { Freedom } from "../../design/constraints/unknowns.js";
import type { Wanted } from "../../design/create/firstText.js";
import { newDesign } from "../../design/create/newDesign.js";
import type { RecipeId } from "../../design/create/recipes.js";
import { type AnalyseOptions, analyse } from "../../design/predict/analyse.js";
import type { Analysis } from "../../design/predict/analysis.js";
import { retune } from "../../design/refit/rekeyByRefit.js";
import { changesByEdit } from "../../design/rekey/changes.js";
import { offered } from "../../design/rekey/offered.js";
import { rekey } from "../../design/rekey/rekey.js";
import { CannotRekey, type RekeyMethod, type RekeyResult } from "../../design/rekey/rekeyResult.js";
import { changeInWords, keysInWords } from "../../design/rekey/rekeyWords.js";
import type { AnalysisSettings } from "../../design/settings.js";
import { drawnFlatInWords } from "../../design/wording.js";
import type { DesignDocument, DesignFile } from "../../document/designFile.js";
import { readDesign } from "../../document/read.js";
import type { TextEdit } from "../../document/textEdit.js";
import { parseNote } from "../../music/note.js";
import { t } from "../../words/translation.js";
import { centsInWords } from "../words.js";
import { type FromFile, heardFile, type MakersFile, type MakersFiles, ONLY_GIVEN, surveyedFile } from "./fromFiles.js";
import {
  type DesignText,
  type MakeOutcome,
  type MakeWork,
  made,
  type ShowOutcome,
  type ShowWork,
  shown,
} from "./making.js";

/** What changes the text. */
export type ChangeWork =
  | { readonly do: "rekey"; readonly to: string; readonly by: RekeyMethod }
  | { readonly do: "retune"; readonly freedom: Freedom }
  /** The mouth calibrated by the measured notes, then every note brought into tune for the next print. */
  | { readonly do: "correct"; readonly freedom: Freedom }
  /** A printable model as a design: an edit of the empty text. */
  | ({ readonly do: "survey" } & MakersFile)
  /** What was heard in a recording, under `measured`. */
  | ({ readonly do: "listen"; readonly temperature?: number } & MakersFile)
  /** An instrument from nothing: its text is an edit of the empty text. */
  | { readonly do: "new"; readonly kind: RecipeId; readonly wanted: Wanted }
  /** The order of work written beside the measured notes, or its first step written as done. */
  | { readonly do: "bench"; readonly write: "plan" | "first step" | "drawn flat" };

export type Work = ChangeWork | MakeWork | ShowWork;

/** The result of a job. */
export type OutcomeOf<W extends Work> = W extends MakeWork ? MakeOutcome : W extends ShowWork ? ShowOutcome : Outcome;

export interface Job<W extends Work = ChangeWork> extends DesignText {
  readonly work: W;
}

export interface Outcome {
  readonly edits: readonly TextEdit[];
  /** Names of the old and the new key. */
  readonly from: string;
  readonly to: string;
  /** What was done, in one line, and what the maker should know of it: the same in one, and sentence by sentence. */
  readonly message: string;
  readonly says: readonly string[];
  /** The message without the keys that it begins with, where it tells of keys. */
  readonly change?: string;
  /** For each edit, what it changes from what to what; and what formulas change with it. */
  readonly made: readonly (readonly string[])[];
  readonly followed: readonly string[];
  /** How many notes are out of tune after it. */
  readonly outOfTune: number;
}

/** Rejects with CannotRekey, Cancelled. */
export async function perform<W extends Work>(
  job: Job<W>,
  shouldStop: () => boolean,
  files?: MakersFiles,
): Promise<OutcomeOf<W>>;
export async function perform(
  { work, ...job }: Job<Work>,
  shouldStop: () => boolean,
  files: MakersFiles = ONLY_GIVEN,
): Promise<OutcomeOf<Work>> {
  if (work.do === "show") return shown(job, shouldStop);
  return work.do === "make" ? made(job, work, shouldStop) : changed({ work, ...job }, shouldStop, files);
}

/** Rejects with CannotRekey, Cancelled. */
async function changed(job: Job, shouldStop: () => boolean, files: MakersFiles): Promise<Outcome> {
  const { text, syntax, documentIndex, settings, work } = job;
  const options = { shouldStop };
  if (work.do === "survey") return withoutKeys(surveyedFile(work, files, settings, shouldStop));
  if (work.do === "new") return begun(work.kind, work.wanted, settings, options);
  const file = readDesign(text, syntax);
  if (work.do === "bench")
    return work.write === "drawn flat"
      ? performDrawFlat(file, documentIndex, settings)
      : performBench(file, documentIndex, work.write, settings);
  if (work.do === "listen") return withoutKeys(await heardFile(file, documentIndex, work, files, settings));
  if (work.do === "correct") {
    const { refit, edits } = corrected(file, documentIndex, work.freedom, settings, options);
    return outcomeOf(refit, file.documents[documentIndex], edits);
  }
  const result =
    work.do === "retune"
      ? retune(file, documentIndex, work.freedom, settings, options)
      : rekey(file, documentIndex, noteNamed(work.to), work.by, settings, options);
  return outcomeOf(result, file.documents[documentIndex], result.edits);
}

function withoutKeys({ edits, says, outOfTune }: FromFile): Outcome {
  return { edits, says, outOfTune, made: [], followed: [], from: "", to: "", message: says.join(" ") };
}

/** @param edits of the document as it was */
function outcomeOf(result: RekeyResult, document: DesignDocument | undefined, edits: readonly TextEdit[]): Outcome {
  const change = summaryOf(result);
  const says = [`${keysInWords(result, "to")}: ${change}`, ...result.remarks];
  return {
    edits,
    change: [change, ...result.remarks].join(" "),
    ...(document === undefined ? { made: [], followed: [] } : changesByEdit(document, edits, result.changes)),
    from: result.from.name,
    to: result.to.name,
    message: says.join(" "),
    says,
    outOfTune: result.after.summary?.outOfTune ?? 0,
  };
}

function begun(kind: RecipeId, wanted: Wanted, settings: AnalysisSettings, options: AnalyseOptions): Outcome {
  const { text, analysis, remarks } = newDesign(kind, wanted, settings, options);
  const { worstCents = 0, outOfTune = 0 } = analysis.summary ?? {};
  const tune = outOfTune === 0 ? t("all in tune") : t`${outOfTune} out of tune`;
  const worst = t`worst note ${centsInWords(worstCents)}`;
  const says = [t`${wanted.name}: ${analysis.fingerings.length} notes, ${tune}, ${worst}.`, ...remarks];
  const { name } = wanted.key;
  return {
    edits: [{ span: { start: 0, end: 0 }, text }],
    made: [],
    followed: [],
    from: name,
    to: name,
    message: says.join(" "),
    says,
    outOfTune,
  };
}

function performDrawFlat(file: DesignFile, index: number, settings: AnalysisSettings): Outcome {
  const { edits, after, refit, remarks } = drawnFlatForBench(file, index, settings);
  return onTheBench(edits, [drawnFlatInWords(after.instrument), ...remarks, ...refit.remarks], after);
}

function performBench(
  file: DesignFile,
  index: number,
  write: "plan" | "first step",
  settings: AnalysisSettings,
): Outcome {
  const document = file.documents[index];
  if (document === undefined) throw new CannotRekey(t`there is no instrument ${index + 1} in this file`);
  const analysis = analyse(document.resolution.instrument, settings);
  const plan = benchPlan(document, analysis);
  const [first] = plan.steps;
  if (write === "first step" && first === undefined) throw new CannotRekey(t("nothing is left to do on the bench"));
  const proposed =
    write === "plan" || first === undefined ? planCommentEdits(document, plan) : doneEdits(file, document, [first]);
  const { edits } = offered(file, index, proposed);
  const said = first === undefined ? leftInWords(plan) : [stepInWords(first, analysis.instrument)];
  return onTheBench(edits, [airInWords(plan), ...said], analysis);
}

/** Work that stays in its key, and of which no table of changes is made. */
function onTheBench(edits: readonly TextEdit[], says: readonly string[], { instrument, summary }: Analysis): Outcome {
  const key = instrument.key?.name ?? "";
  const made = edits.map(() => []);
  const outOfTune = summary?.outOfTune ?? 0;
  return { edits, made, followed: [], from: key, to: key, message: says.join(" "), says, outOfTune };
}

function noteNamed(name: string) {
  const note = parseNote(name);
  if (note === undefined) throw new CannotRekey(t`${name} is not a note`);
  return note;
}

function summaryOf(result: RekeyResult): string {
  const { summary } = result.after;
  const worst = summary === undefined ? "" : t`; worst note ${centsInWords(summary.worstCents)}`;
  return `${changeInWords(result)}${worst}.`;
}
