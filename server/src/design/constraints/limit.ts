/** A constraint on a refit: a linear inequality over the unknowns, with its message. */
import type { Column } from "../../acoustics/column.js";
import { length, lengthsBeside, MEASURED } from "../../instrument/lengthWords.js";
import type { Analysis } from "../predict/analysis.js";
import type { Inequality } from "../refit/quadraticProgram.js";
import { unitName } from "../wording.js";
import type { Constraints } from "./constraints.js";
import { offsetOf, type Unknown, type UnknownKind, valueIn } from "./unknowns.js";

export interface Limit extends Inequality {
  /** Message if the limit holds a refit back: `R3 would need 41 mm of reach, but the reach is 34`. */
  readonly complaint: (needed: number) => string;
  /** What the maker may do about it. */
  readonly advice: string;
  /** Nobody can make less of it, mm. */
  readonly leastTold?: number;
  /** The limited quantity at a point, mm. */
  readonly value: (x: readonly number[]) => number;
  /** Its limit at a point, mm: where another dimension sets the limit, it moves with that. */
  readonly limitAt: (x: readonly number[]) => number;
}

export interface Words {
  readonly complaint: (mm: number) => string;
  readonly advice: string;
  /** Nobody can make less of it, or is told to, mm. */
  readonly leastTold?: number;
  /** How many of the first terms the message is about; the rest belong to its limit. Default: all. */
  readonly spokenOf?: number;
}

/** A dimension with its factor in a sum: kind, and index of the hole or station. No refit changes how long an oval hole is. */
export type Term = readonly [factor: number, kind: UnknownKind | "hole-half-length", index?: number];

/** Half of a hole's length along the bore. */
export function halfLengthTerm({ column }: Pick<LimitContext, "column">, hole: number, factor: number): Term {
  const isOval = column.holes[hole]?.halfLength !== undefined;
  return [factor, isOval ? "hole-half-length" : "hole-radius", hole];
}

/** The same where the hole meets the bore, with its undercut. */
export function halfLengthAtBore(context: Pick<LimitContext, "column">, hole: number, factor: number): readonly Term[] {
  return [halfLengthTerm(context, hole, factor), [factor, "hole-undercut", hole]];
}

/** Millimetres of the printed object in a metre. */
export const MM = 1e3;

/** What limits are built from. */
export interface LimitContext {
  /** Where holes lie among the stations, if not as in `column`. */
  readonly placed?: Column;
  readonly analysis: Analysis;
  readonly column: Column;
  readonly unknowns: readonly Unknown[];
  readonly constraints: Constraints;
  /** The bore whose tapers are kept: where refits follow each other the first one's, so that slopes do not drift. Default: `column`'s. */
  readonly kept?: Column;
  /** How many times as long a taper of the same widths will be: its slope is that much less. 1 where the bore does not grow. */
  readonly stretch?: number;
}

/** The sum of `terms` is at least `bound` mm; no limit where no unknown takes part. */
export function atLeast(context: LimitContext, terms: readonly Term[], bound: number, words: Words): Limit[] {
  return limit(context, terms, 1, bound, words);
}

/** The sum of `terms` is at most `bound` mm; no limit where no unknown takes part. */
export function atMost(context: LimitContext, terms: readonly Term[], bound: number, words: Words): Limit[] {
  return limit(context, terms, -1, bound, words);
}

/** `sign · sum ≥ sign · bound`. */
function limit(context: LimitContext, terms: readonly Term[], sign: 1 | -1, bound: number, words: Words): Limit[] {
  const shown = sumOf(context, terms.slice(0, words.spokenOf));
  const whole = sumOf(context, terms);
  return inequality(context, terms, sign, bound).map((each) => ({
    ...each,
    limitAt: (x) => bound - (totalOf(whole, x) - totalOf(shown, x)),
    value: (x) => totalOf(shown, x),
    complaint: words.complaint,
    advice: words.advice,
    ...(words.leastTold === undefined ? {} : { leastTold: words.leastTold }),
  }));
}

/** `sign · sum of terms ≥ sign · bound`, mm, over the unknowns; none where no unknown takes part. */
export function inequality(
  context: LimitContext,
  terms: readonly Term[],
  sign: 1 | -1,
  bound: number,
): readonly Inequality[] {
  if (!terms.some(([, kind, index]) => placeOf(context, kind, index) >= 0)) return [];
  const { row, constant } = sumOf(context, terms);
  if (row.size === 0 || !Number.isFinite(bound)) return [];
  return [{ row: new Map([...row].map(([i, factor]) => [i, sign * factor])), least: sign * (bound - constant) }];
}

interface Sum {
  readonly row: ReadonlyMap<number, number>;
  readonly constant: number;
}

/** Index of the unknown that a dimension is or moves along with; −1 where it stays. */
function placeOf({ unknowns }: LimitContext, wanted: Term[1], index = -1): number {
  return unknowns.findIndex(
    ({ kind, index: own, along }) => kind === wanted && (own === index || along?.includes(index)),
  );
}

/** Unknown dimensions enter by their index, fixed ones by their value. */
function sumOf(context: LimitContext, terms: readonly Term[]): Sum {
  const { unknowns, column } = context;
  const row = new Map<number, number>();
  let constant = 0;
  for (const [factor, kind, index = -1] of terms) {
    const place = placeOf(context, kind, index);
    const unknown = unknowns[place];
    if (unknown === undefined) {
      constant += factor * MM * presentValue(kind, index, column);
      continue;
    }
    row.set(place, (row.get(place) ?? 0) + factor);
    if (unknown.index !== index) constant += factor * MM * offsetOf(unknown, index, column);
  }
  // What enters twice may cancel: the two stations of a step.
  for (const [place, factor] of row) if (factor === 0) row.delete(place);
  return { row, constant };
}

function presentValue(kind: Term[1], index: number, column: Column): number {
  return kind === "hole-half-length"
    ? (column.holes[index]?.halfLength ?? Number.NaN)
    : valueIn({ kind, index }, column);
}

function totalOf({ row, constant }: Sum, x: readonly number[]): number {
  return [...row].reduce((sum, [i, factor]) => sum + factor * (x[i] ?? 0), constant);
}

/** A length of the printed object as a complaint gives it: `41.2 mm`, tenths of a millimetre or hundredths of an inch. */
export function sizeText(mm: number, analysis: Pick<Analysis, "instrument">): string {
  return sizesBeside([mm], analysis)[0];
}

/** The same of lengths that one sentence compares: no two alike that differ. */
export function sizesBeside<const T extends readonly number[]>(
  millimetres: T,
  { instrument }: Pick<Analysis, "instrument">,
) {
  const inUnit = { unit: unitName(instrument) };
  const shown = millimetres.map((mm) => length(mm / instrument.unitMillimetres, MEASURED, inUnit));
  return lengthsBeside(shown, inUnit) as { readonly [K in keyof T]: string };
}
