/** `borewright bench FILE`: the order of work on a made instrument. */

import { doneEdits } from "../design/bench/doneEdits.js";
import { drawnFlatForBench } from "../design/bench/drawFlat.js";
import { type BenchPlan, type BenchStep, benchPlan } from "../design/bench/plan.js";
import { airInWords, leftInWords, rulesOfWork, stepInWords, whole } from "../design/bench/wording.js";
import { CannotRekey } from "../design/rekey/rekeyResult.js";
import type { AnalysisSettings } from "../design/settings.js";
import { drawnFlatInWords } from "../design/wording.js";
import { checkedEdits } from "../document/checkedEdits.js";
import { applyEdits } from "../document/edits.js";
import { jsonText } from "../escape/json.js";
import { table } from "../escape/table.js";
import type { Instrument } from "../instrument/model.js";
import { pathText } from "../instrument/path.js";
import { benchCautions } from "../make/solid/cautions.js";
import { UnusableInput } from "./exitStatus.js";
import type { ReadFile } from "./files.js";
import { instrumentIn } from "./instrumentIn.js";
import { analyseFile } from "./pitch.js";

export interface BenchArguments {
  readonly instrument: number | undefined;
  /** °C of the workshop. */
  readonly temperature: number | undefined;
  /** Cents. */
  readonly within: number | undefined;
  /** How many steps, from the first, are done. */
  readonly done: number | undefined;
}

export interface BenchResult {
  readonly file: string;
  readonly instrument: Instrument;
  readonly plan: BenchPlan;
  /** The design with the steps that are done written into it; undefined where none is. */
  readonly text: string | undefined;
  readonly done: readonly BenchStep[];
}

/** @throws UnusableInput */
export function benchFile(read: ReadFile, asked: BenchArguments, settings: AnalysisSettings): BenchResult {
  const index = instrumentIn(read, asked.instrument);
  const [analysis, document] = [analyseFile(read, settings)[index], read.design.documents[index]];
  if (analysis?.summary === undefined || document === undefined)
    throw new UnusableInput(read.file, "no fingering of the design can be predicted");
  const plan = benchPlan(document, analysis, { workshop: asked.temperature, within: asked.within });
  const { done: count } = asked;
  if (count !== undefined && !(Number.isInteger(count) && count >= 1 && count <= plan.steps.length))
    throw new UnusableInput(
      "--done",
      `takes a number of steps from 1 to ${plan.steps.length}, which is how many the plan has`,
    );
  const done = plan.steps.slice(0, count ?? 0);
  const { instrument } = analysis;
  if (done.length === 0) return { file: read.file, instrument, plan, text: undefined, done };
  const checked = checkedEdits(read.design, index, doneEdits(read.design, document, done));
  if (checked === undefined)
    throw new UnusableInput(
      read.file,
      "is written in a way that does not let these sizes be changed without changing others: write them out",
    );
  return { file: read.file, instrument, plan, text: applyEdits(read.design.text, checked.edits), done };
}

export function benchLines({ instrument, plan }: BenchResult): readonly string[] {
  const { steps, now, left } = plan;
  const rows = now.map(({ name, reading, right, uncertainty }) => [
    name,
    whole(reading),
    whole(right),
    uncertainty === undefined ? "predicted" : `measured, ±${uncertainty.toFixed(0)}`,
  ]);
  const isDone = steps.length === 0 && left.length === 0;
  return [
    ...(instrument.name === undefined ? [] : [instrument.name]),
    airInWords(plan),
    "",
    ...table(["note", "reads", "right", ""], ["left", "right", "right", "left"], rows),
    "",
    isDone
      ? `Every note is within ${plan.within} cents of right: nothing is left to do.`
      : steps.length > 0
        ? "Order of work"
        : "No cut would bring a note closer.",
    ...steps.map((step, i) => `${String(i + 1).padStart(2)}. ${stepInWords(step, instrument)}.`),
    ...(left.length === 0 ? [] : ["", "Left as they are", ...leftInWords(plan)]),
    ...(isDone ? [] : ["", ...rulesOfWork(plan), "", "Please note", ...benchCautions()]),
  ];
}

export interface DrawnFlatResult {
  readonly text: string;
  readonly lines: readonly string[];
}

/** The design brought into tune and drawn flat for the bench, by what its `bench` says. @throws UnusableInput */
export function drawFlatFile(read: ReadFile, asked: number | undefined, settings: AnalysisSettings): DrawnFlatResult {
  const index = instrumentIn(read, asked);
  try {
    const { text, after, refit, remarks } = drawnFlatForBench(read.design, index, settings);
    // That no retune came closer is no news about a design that is drawn flat all the same.
    const ofRefit = refit.remarks.filter((remark) => remark !== refit.nothingChanged);
    return { text, lines: [drawnFlatInWords(after.instrument), ...remarks, ...ofRefit] };
  } catch (error) {
    if (error instanceof CannotRekey) throw new UnusableInput(read.file, error.message);
    throw error;
  }
}

/** Said on stderr when steps are written: nothing of the file is lost without a word. */
export function doneLines({ instrument, done }: BenchResult): readonly string[] {
  const { measured } = instrument;
  const notes = measured.map(({ note, hz }) => `${note.name} ${hz.toFixed(2)} Hz`).join(", ");
  return [
    `Written as done: ${done.map(({ name }) => name).join(", ")}.`,
    ...(measured.length === 0 ? [] : [`Removed, since they were measured before: ${notes}. Measure again.`]),
  ];
}

export function benchJson({ file, instrument, plan, text }: BenchResult): string {
  const { workshop, temperature, pitchStandard, within, isMeasured, now, steps, left } = plan;
  return jsonText({
    file,
    name: instrument.name ?? null,
    workshopTemperature: workshop,
    temperature,
    pitchStandard,
    withinCents: within,
    isMeasured,
    notes: now.map((note) => ({ ...note, uncertainty: note.uncertainty ?? null })),
    steps: steps.map(({ kind, name, from, to, stop, notes, path, drawn, alsoMoved }) => ({
      kind,
      part: name,
      fromMillimetres: 1e3 * from,
      toMillimetres: 1e3 * to,
      notBeyondMillimetres: 1e3 * stop,
      notes,
      path: pathText(path),
      drawn: drawn / instrument.printedUnit,
      alsoMoved: alsoMoved.map((size) => ({ path: pathText(size.path), drawn: size.drawn / instrument.printedUnit })),
    })),
    left,
    cautions: benchCautions(),
    ...(text === undefined ? {} : { text }),
  });
}
