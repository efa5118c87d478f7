/**
 * What the rules of hands and printer check in every family: the drawing, and the millimetres in which it comes out of the
 * printer. The limits of printer and player are in makerLimits.ts.
 */
import type { Shown } from "../digits.js";
import { boreDiameterAt } from "../draft/bore.js";
import { cavityOf } from "../draft/cavity.js";
import type { Draft } from "../draft/draft.js";
import type { Finding, Path, RuleCode } from "../finding.js";
import { atLeastText, length, lengthsBeside, lengthText, MEASURED } from "../lengthWords.js";
import type { Fingering } from "../model.js";
import { isMap, own } from "../path.js";
import { printingOf } from "../printed/printing.js";

export interface Making {
  readonly draft: Draft;
  /** mm of the object on the printer's bed for one unit of the file: print scale, nothing shrunk yet. */
  readonly laidUnit: number;
  /** mm of the finished object for one unit of the file. */
  readonly finishedUnit: number;
  /** How much smaller finished holes are, mm on the diameter. */
  readonly undersize: number;
  /** 1 is the size as drawn. */
  readonly printScale: number;
  /** Whether the design says anything about a printer. */
  readonly isPrinted: boolean;
  /** Whether a finger closes the hole: where there are fingerings, one of them does. A vent is open in all. */
  readonly isFingered: (hole: number) => boolean;
}

/** One requirement of hands or printer on an instrument. */
export interface MakingRule {
  readonly code: RuleCode;
  readonly check: (making: Making) => readonly Finding[];
}

/** Undefined while a number of `print` is wrong, and the size of the printed object is not known. */
export function makingOf(draft: Draft, fingerings: readonly Fingering[]): Making | undefined {
  const { printedUnit, printScale, unitMillimetres, holeUndersize, known } = printingOf(draft);
  if (!known) return undefined;
  return {
    draft,
    laidUnit: unitMillimetres * printScale,
    finishedUnit: 1e3 * printedUnit,
    undersize: 1e3 * holeUndersize,
    printScale,
    isPrinted: isMap(own(draft.data, "print")),
    isFingered: isFingeredBy(fingerings),
  };
}

/** Whether a finger closes a hole, by its index: where there are fingerings, one of them does. */
export function isFingeredBy(fingerings: readonly Pick<Fingering, "covers">[]): (hole: number) => boolean {
  const covers = fingerings.flatMap((fingering) => (fingering.covers === undefined ? [] : [fingering.covers]));
  return (hole) => covers.length === 0 || covers.some((each) => (each[hole] ?? 0) > 0);
}

/** Millimetres in the file's unit, as in `12.5 mm` or `0.49 in`. */
export function madeText(mm: number, { draft }: Making, decimals = MEASURED): string {
  return lengthText(mm / millimetresIn(draft), draft, decimals);
}

/** Millimetres of the finished object, for `madeBeside`. */
export function made(mm: number, { draft }: Making, decimals = MEASURED): Shown {
  return length(mm / millimetresIn(draft), decimals, draft);
}

/** As `madeText`, of sizes that one sentence compares. */
export function madeBeside<const T extends readonly Shown[]>(sizes: T, { draft }: Making) {
  return lengthsBeside(sizes, draft);
}

/** What a size must change by, so that it suffices. */
export function changeText(mm: number, { draft }: Making): string {
  return atLeastText(mm / millimetresIn(draft), draft, MEASURED);
}

function millimetresIn(draft: Draft): number {
  return printingOf(draft).unitMillimetres;
}

/** A hole of the finished object, mm; `index` is its place in the file. */
export interface MadeHole {
  readonly index: number;
  readonly name: string;
  readonly path: Path;
  readonly at: number;
  /** Across the bore. */
  readonly diameter: number;
  /** Along the bore. */
  readonly length: number;
  /** Degrees, 0 the front. */
  readonly angle: number;
  /** From the axis to the body's outer surface there; NaN while bore or wall is not known. */
  readonly outer: number;
}

/** Holes along a tube that are known in full; others have their findings. */
export function holesAlong({ draft, finishedUnit, undersize }: Making): readonly MadeHole[] {
  return draft.holes.flatMap(({ label, path, at, diameter, length, angle }, index) => {
    if (at === undefined || diameter === undefined || length === undefined || angle === undefined) return [];
    const made = (size: number) => size * finishedUnit - undersize;
    const sizes = { at: at * finishedUnit, diameter: made(diameter), length: made(length) };
    const body = bodyRadius(draft, at);
    return [{ index, name: label, path, ...sizes, angle, outer: body * finishedUnit }];
  });
}

/** As drawn; a chamber in the shape of a tube has no stations. */
function bodyRadius(draft: Draft, at: number): number {
  const cavity = draft.bore === undefined ? cavityOf(draft) : undefined;
  const bore = cavity?.kind === "tube" ? cavity.diameter : boreDiameterAt(draft.bore, at);
  return bore === undefined || draft.wall === undefined ? Number.NaN : bore / 2 + draft.wall;
}

/** Slack of comparisons, mm: what rounding of numbers leaves, far below what a printer can. */
export const MADE_SLACK = 1e-6;
