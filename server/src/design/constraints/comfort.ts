/**
 * What a maker prefers among dimensions that play alike: holes of a usual width for the bore, fingers neither stretched nor cramped. Preferences,
 * not limits: a refit gives them up where the notes need more. What is drawn already is never penalized.
 */
import { boreRadiusAt, type Column } from "../../acoustics/column.js";
import { COMFORT } from "../../instrument/defaults.js";
import type { Inequality } from "../refit/quadraticProgram.js";
import { doubleHolesOf, neighbouringFingers, thumbsAndFingers } from "./fingers.js";
import { distance } from "./handLimits.js";
import { boreTerms } from "./holeLimits.js";
import { inequality, type LimitContext, MM, type Term } from "./limit.js";

/** `row · x` is preferably at least `least`, mm. */
export interface Preference extends Inequality {
  /** What a millimetre short of it counts relative to cents. */
  readonly weight: number;
}

/** @param drawn the column whose widths and distances are no discomfort, whatever they are. Default: none */
export function comfortOf(context: LimitContext, drawn?: Column): readonly Preference[] {
  return [...widths(context, drawn), ...spacings(context, drawn), ...thumbs(context, drawn)];
}

function widths(context: LimitContext, drawn: Column | undefined): Preference[] {
  const column = drawn ?? context.column;
  const doubles = doubleHolesOf(context.analysis.instrument, column).flat();
  return column.holes.flatMap((hole, i): Preference[] => {
    const bore = 2 * MM * boreRadiusAt(column.bore, hole.x);
    const [least, most] = COMFORT.holeOverBore;
    // Two holes side by side let as much air out as one that is wider by the root of two.
    const narrow = doubles.includes(i) ? least * Math.SQRT1_2 : least;
    const [from, to] = within(narrow, most, drawn && (2 * MM * hole.radius) / bore);
    const beside = (share: number): Term[] => [[2, "hole-radius", i], ...boreTerms(column, hole.x, -2 * share)];
    const weight = COMFORT.centsForWidth / bore;
    return [...preference(context, beside(from), 1, 0, weight), ...preference(context, beside(to), -1, 0, weight)];
  });
}

function spacings(context: LimitContext, drawn: Column | undefined): Preference[] {
  const { analysis, constraints } = context;
  return neighbouringFingers(analysis.instrument, drawn ?? context.column).flatMap((pair): Preference[] => {
    const { upper, lower, which, along } = pair;
    if (which === "hands") return [];
    const [least, most] = COMFORT.spacing.map((share) => share * constraints.spacing(which).mm) as [number, number];
    const [from, to] = within(least, most, drawn && along);
    const between = distance(upper, lower);
    // A stated reach is what the player is comfortable with.
    const wide = constraints.reach(which).stated ? [] : preference(context, between, -1, to, COMFORT.centsForSpacing);
    return [...preference(context, between, 1, from, COMFORT.centsForSpacing), ...wide];
  });
}

function thumbs(context: LimitContext, drawn: Column | undefined): Preference[] {
  const column = drawn ?? context.column;
  return thumbsAndFingers(context.analysis.instrument, column).flatMap(([thumb, finger]): Preference[] => {
    const [from, to] = within(...COMFORT.thumbAbove, drawn && finger.at - thumb.at);
    const between = distance(thumb, finger);
    return [
      ...preference(context, between, 1, from, COMFORT.centsForSpacing),
      ...preference(context, between, -1, to, COMFORT.centsForSpacing),
    ];
  });
}

/** A range, and what is drawn. */
function within(least: number, most: number, drawn = least): readonly [number, number] {
  return [Math.min(least, drawn), Math.max(most, drawn)];
}

function preference(
  context: LimitContext,
  terms: readonly Term[],
  sign: 1 | -1,
  bound: number,
  weight: number,
): Preference[] {
  return inequality(context, terms, sign, bound).map((each) => ({ ...each, weight }));
}

/** How much each preference is missed by at a point, and its derivatives. */
export function comfortMissed(comfort: readonly Preference[], x: readonly number[]) {
  const residuals: number[] = [];
  const slopes: number[][] = [];
  for (const { row, least, weight } of comfort) {
    const short = [...row].reduce((left, [i, factor]) => left - factor * (x[i] ?? 0), least);
    residuals.push(weight * Math.max(0, short));
    const line = new Array<number>(x.length).fill(0);
    if (short > 0) for (const [i, factor] of row) line[i] = -weight * factor;
    slopes.push(line);
  }
  return { residuals, slopes };
}

/** The cost of missing comfort at a point, cents squared. */
export function discomfortAt(comfort: readonly Preference[], x: readonly number[]): number {
  return comfortMissed(comfort, x).residuals.reduce((sum, value) => sum + value * value, 0);
}
