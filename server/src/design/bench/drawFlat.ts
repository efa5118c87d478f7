/**
 * A design drawn flat for the bench: brought into tune with room left to open every hole, then made smaller where a bench makes larger: mouth,
 * holes, and a foot too long. No place changes for it, so that with the work done it is the design in tune again, register by register.
 */
import { KEPT_BY_REFITS } from "../../acoustics/checkedRanges.js";
import { boreRadiusAt } from "../../acoustics/column.js";
import { TextChanges } from "../../document/changes.js";
import type { DesignDocument, DesignFile } from "../../document/designFile.js";
import { setNumber } from "../../document/edits.js";
import type { TextEdit } from "../../document/textEdit.js";
import { type Body, sharedColumn } from "../../instrument/body.js";
import type { Finding, RuleCode } from "../../instrument/finding.js";
import type { Instrument } from "../../instrument/model.js";
import { t } from "../../words/translation.js";
import { NumberWriter } from "../edit/numberWriter.js";
import { secant } from "../fix/solve.js";
import { analyse } from "../predict/analyse.js";
import type { Analysis } from "../predict/analysis.js";
import { isOfWholeLength } from "../predict/target.js";
import { retune } from "../refit/rekeyByRefit.js";
import { documentIn } from "../rekey/newTargets.js";
import { offered } from "../rekey/offered.js";
import { CannotRekey, type RekeyResult } from "../rekey/rekeyResult.js";
import { type AnalysisSettings, DEFAULT_SETTINGS } from "../settings.js";
import { centsInWords } from "../wording.js";
import { madeOf } from "./made.js";
import { mouthTask, type Task, tasksOf } from "./tasks.js";
import type { Size, Workable } from "./workable.js";

export interface DrawnFlat {
  /** The whole file, and the edits of it as it was. */
  readonly text: string;
  readonly edits: readonly TextEdit[];
  /** What stood against drawing it as flat as asked. */
  readonly remarks: readonly string[];
  /** How it came in tune before it was drawn flat. */
  readonly refit: RekeyResult;
  readonly after: Analysis;
}

/** The mouth's opening, of what it is in tune: drawn smaller than that, it may not speak. Common practice, no source. */
const SMALLEST_MOUTH = 0.85;
/** A tube or pipe is drawn longer by this share at most: two semitones. */
const LONGEST = 1.12;
const CLOSE_ENOUGH = 0.1;

/** @throws CannotRekey */
export function drawnFlatForBench(
  file: DesignFile,
  index: number,
  settings: AnalysisSettings = DEFAULT_SETTINGS,
): DrawnFlat {
  const stated = file.documents[index];
  const { drawnFlat } = stated?.resolution.instrument ?? {};
  if (stated === undefined || drawnFlat === undefined || !(drawnFlat.holes > 0 || drawnFlat.length > 0))
    throw new CannotRekey(
      t("it does not say how flat it is to be drawn: write `bench: { holesFlat: 25, lengthFlat: 16, room: 12 }`"),
    );
  const changes = new TextChanges(file.text);
  changes.make(flats(stated, { holes: 0, length: 0, room: drawnFlat.room }));
  const refit = retune(documentIn(changes.text, file.syntax, index).file, index, "all", settings);
  changes.make(refit.edits);
  const tuned = documentIn(changes.text, file.syntax, index);
  const whole = drawn(tuned, refit.after, drawnFlat, "all");
  const tooLong = bedFinding(whole.document, tuned.document);
  const made = tooLong === undefined ? whole : drawn(tuned, refit.after, drawnFlat, "held");
  changes.make(made.edits);
  changes.make(flats(documentIn(changes.text, file.syntax, index).document, drawnFlat));
  const { edits, text } = offered(file, index, changes.edits);
  const { instrument } = documentIn(text, file.syntax, index).document.resolution;
  const after = analyse(instrument, settings);
  return { text, edits, refit, after, remarks: tooLong === undefined ? [] : [notLonger(tooLong, after)] };
}

/** Sizes written smaller, and lengths longer unless nothing may be. */
function drawn(
  { file, document }: { readonly file: DesignFile; readonly document: DesignDocument },
  after: Analysis,
  drawnFlat: Instrument["drawnFlat"],
  lengths: "all" | "held",
) {
  const writer = new NumberWriter(file, document);
  for (const size of smaller(document, after, drawnFlat, lengths))
    writer.writeDrawn(size.path, size.drawn / document.resolution.instrument.printedUnit);
  return writer;
}

const LONGER_THAN_BED: RuleCode = "print/longer-than-bed";

/** That it no longer fits the printer, where it did. */
function bedFinding(now: DesignDocument, before: DesignDocument): Finding | undefined {
  const found = ({ findings }: DesignDocument) =>
    findings.filter(({ code, severity }) => severity !== "information" && code === LONGER_THAN_BED);
  return found(before).length > 0 ? undefined : found(now)[0];
}

function notLonger({ message }: Finding, { fingerings, instrument: { drawnFlat } }: Analysis): string {
  const whole = fingerings.flatMap(({ cents, fingering }) =>
    cents === undefined || !isOfWholeLength(fingering) ? [] : [cents],
  );
  const flat = Math.max(0, drawnFlat.length - Math.max(0, ...whole));
  return t`Not drawn longer, since it would not fit the printer: ${message} Notes of the whole length are drawn ${centsInWords(flat)} flat instead of ${centsInWords(drawnFlat.length)}.`;
}

/** What `bench` says, as numbers; what it does not say stays unsaid. */
function flats(
  document: DesignDocument,
  { holes, length, room }: { readonly holes: number; readonly length: number; readonly room: number },
): readonly TextEdit[] {
  const { numbers } = document.resolution.draft;
  const values = [
    ["holesFlat", holes],
    ["lengthFlat", length],
    ["room", room],
  ] as const;
  return values.flatMap(([name, value]) => {
    const now = numbers.at(["bench", name]);
    return (now ?? 0) === value ? [] : setNumber(document, ["bench", name], value, CENTS_DECIMALS);
  });
}

const CENTS_DECIMALS = 1;

/** The sizes as drawn, from the mouth to the foot and from there up the holes. */
function smaller(
  document: DesignDocument,
  analysis: Analysis,
  { holes, length }: { readonly holes: number; readonly length: number },
  lengths: "all" | "held",
): readonly Size[] {
  const made = madeOf({ ...analysis, instrument: { ...analysis.instrument, measured: [] } });
  const tasks = tasksOf(document, made);
  const lowest = tasks.filter(({ isLength }) => isLength);
  const [mouth] = mouthTask(document, made, tasks);
  const sizes: Size[] = [];
  let body = made.body;
  const draw = (part: Workable, off: Task["off"], flat: number, least: number, greatest: number) => {
    const now = part.valueIn(body);
    const value = valueAt(part, off, body, -flat, now === least ? greatest : least);
    if (value === undefined) return;
    body = part.bodyWith(body, value);
    sizes.push({ path: part.path, drawn: value + part.drawnAdd }, ...(part.alsoMoved?.(value) ?? []));
  };
  const [whole] = lowest;
  if (mouth?.part !== undefined && whole !== undefined)
    draw(mouth.part, whole.off, length, SMALLEST_MOUTH * mouth.part.valueIn(body), mouth.part.valueIn(body));
  for (const { part, off } of lowest)
    if (part !== undefined && lengths === "all")
      draw(part, off, length, part.valueIn(body), LONGEST * part.valueIn(body));
  for (const { part, off, isLength } of tasks)
    if (part !== undefined && !isLength) draw(part, off, holes, narrowest(body, part), part.valueIn(body));
  return lastOfEach(sizes);
}

/** The value toward `end` at which the notes lie `aim` cents from right, or `end` where they do not get that far; undefined where they are there already. */
function valueAt(part: Workable, off: Task["off"], body: Body, aim: number, end: number): number | undefined {
  const now = part.valueIn(body);
  const there = (value: number) => {
    const cents = off(part.bodyWith(body, value));
    return cents === undefined ? undefined : cents - aim;
  };
  const start = there(now);
  if (start === undefined || start <= CLOSE_ENOUGH) return undefined;
  const atEnd = there(end);
  if (atEnd !== undefined && atEnd >= 0) return end;
  const bounds = { least: Math.min(now, end), greatest: Math.max(now, end), tolerance: CLOSE_ENOUGH };
  return secant(there, now, now + (end - now) / 4, bounds);
}

/** m: half as wide, or as narrow as the prediction is checked for. */
function narrowest(body: Body, part: Workable): number {
  const now = part.valueIn(body);
  const column = sharedColumn(body);
  const hole = part.hole === undefined ? undefined : column?.holes[part.hole];
  const least = hole === undefined ? 0 : 2 * KEPT_BY_REFITS.holeOverBore[0] * boreRadiusAt(column?.bore ?? [], hole.x);
  return Math.min(now, Math.max(now / 2, least));
}

/** A number that several parts move is written once, with its last value. */
function lastOfEach(sizes: readonly Size[]): readonly Size[] {
  return [...new Map(sizes.map((size) => [size.path.join("."), size])).values()];
}
