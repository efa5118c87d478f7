/**
 * Rounds solved dimensions to what can be drawn, so that the roundings cancel in the notes rather than add up: one after another
 * while the rest make up for it; where that leaves a note unnecessarily off, dimensions take neighbouring steps, alone and two at
 * a time, as long as that lowers the deviations, by the notes' slopes. Every limit holds.
 */
import { Cancelled } from "../../acoustics/cancelled.js";
import { type DrawingStep, neighbours, next } from "./drawingStep.js";
import { IN_TUNE, largest } from "./inTune.js";
import type { Listener } from "./minimax.js";
import type { Inequality } from "./quadraticProgram.js";
import { keeps } from "./quadraticStep.js";
import { roundOneByOne } from "./roundOneByOne.js";

/** Most passes over all dimensions; in practice three or four are enough. */
const MOST_ROUNDS = 12;
/** Relative gain below which a step is not worth taking. */
const LEAST_GAIN = 1e-3;
/** A high power of the deviations follows the worst note; squares follow all. Powers of two. */
const BY_ALL = 2;
const BY_THE_WORST = 8;
/** A drawing that costs more than this has gone too far. Cents. */
const MISSED = 2;
/** A drawing that costs no more cents than this is as good as the exact dimensions. */
const NEARLY_NOTHING = 0.15;

/**
 * @param x millimetres, by unknown; within `limits` but for rounding
 * @param good worst deviation, cents, beyond which dimensions are tried two at a time
 * @throws Cancelled
 */
export function roundTogether<N extends { readonly cents: readonly number[] }>(
  tuner: Listener<N>,
  x: readonly number[],
  steps: readonly DrawingStep[],
  limits: readonly Inequality[],
  good: number,
  shouldStop: () => boolean = () => false,
): readonly number[] {
  const exact = tuner.at(x);
  const best = exact && bestOneByOne(tuner, x, exact, steps, limits, good, shouldStop);
  if (exact && best && isNear(exact, best.notes, good)) return best.x;
  const rounded = best?.x ?? allAtOnce(x, steps, limits);
  const here = best?.notes ?? tuner.at(rounded);
  if (here === undefined) return rounded;
  const search = new Search([...rounded], here.cents, tuner.slopes(here), steps, limits, shouldStop);
  search.descend(BY_ALL, false);
  if (search.worst > good) search.descend(BY_THE_WORST, true);
  return search.x;
}

/** Drawn one dimension after another: for the worst note, and where that does not come near for all of them. */
function bestOneByOne<N extends { readonly cents: readonly number[] }>(
  tuner: Listener<N>,
  x: readonly number[],
  exact: N,
  steps: readonly DrawingStep[],
  limits: readonly Inequality[],
  good: number,
  shouldStop: () => boolean,
): { readonly x: readonly number[]; readonly notes: N } | undefined {
  const slopes = tuner.slopes(exact);
  let best: { readonly x: readonly number[]; readonly notes: N } | undefined;
  for (const aim of ["worst", "squares", "nearby"] as const) {
    if (shouldStop()) throw new Cancelled();
    // Where what slopes led to was not there, or another resonance was.
    if (aim === "nearby" && best !== undefined && largest(best.notes.cents) < largest(exact.cents) + MISSED) break;
    const rounded = roundOneByOne(x, exact.cents, slopes, steps, limits, aim);
    const notes = rounded && tuner.at(rounded);
    if (rounded === undefined || notes === undefined) continue;
    if (best === undefined || largest(notes.cents) < largest(best.notes.cents)) best = { x: rounded, notes };
    if (isNear(exact, best.notes, good)) return best;
  }
  return best;
}

interface Deviations {
  readonly cents: readonly number[];
}

/** Whether a drawing is good enough: what is out of tune before it is drawn need not be in tune after. */
function isNear(exact: Deviations, drawn: Deviations, good: number): boolean {
  const [before, after] = [largest(exact.cents), largest(drawn.cents)];
  return after <= good || (after <= before + NEARLY_NOTHING && (after <= IN_TUNE || before > IN_TUNE));
}

function allAtOnce(x: readonly number[], steps: readonly DrawingStep[], limits: readonly Inequality[]): number[] {
  return keptWithin(
    limits,
    x.map((value, i) => neighbours(value, steps[i] as DrawingStep)[0]),
    steps,
  );
}

/** Steps back inside limits that rounding has crossed: for each, the first of its dimensions that harms no other. */
function keptWithin(limits: readonly Inequality[], x: readonly number[], steps: readonly DrawingStep[]): number[] {
  let now = [...x];
  for (const limit of limits) {
    if (keeps(limit, now)) continue;
    const kept = limits.filter((other) => keeps(other, now));
    for (const [i, factor] of limit.row) {
      const drawing = steps[i];
      if (drawing === undefined) continue;
      const moved = now.map((value, j) => (j === i ? next(value, drawing, factor > 0 ? 1 : -1) : value));
      if (!kept.every((other) => keeps(other, moved))) continue;
      now = moved;
      if (keeps(limit, now)) break;
    }
  }
  return now;
}

interface Change {
  readonly unknown: number;
  readonly by: number;
}

class Search {
  private readonly cents: number[];
  /** By unknown, then by note. */
  private readonly columns: readonly (readonly number[])[];

  constructor(
    readonly x: number[],
    cents: readonly number[],
    slopes: readonly (readonly number[])[],
    private readonly steps: readonly DrawingStep[],
    private readonly limits: readonly Inequality[],
    private readonly shouldStop: () => boolean,
  ) {
    this.cents = [...cents];
    this.columns = x.map((_, i) => slopes.map((row) => row[i] ?? 0));
  }

  get worst(): number {
    return largest(this.cents);
  }

  /** Takes the best step of each dimension, or of each two, until none lowers the sum of the deviations' powers. */
  descend(power: number, inPairs: boolean): void {
    for (let round = 0; round < MOST_ROUNDS; round++) {
      let moved = false;
      for (let i = 0; i < this.x.length; i++) {
        if (this.shouldStop()) throw new Cancelled();
        const single = this.both(i).map((change) => [change]);
        const pairs = inPairs
          ? this.both(i).flatMap((first) =>
              this.x.flatMap((_, j) => (j > i ? this.both(j).map((second) => [first, second]) : [])),
            )
          : [];
        if (this.takeBest([...single, ...pairs], power)) moved = true;
      }
      if (!moved) break;
    }
  }

  private both(unknown: number): readonly Change[] {
    const drawing = this.steps[unknown];
    const value = this.x[unknown];
    if (drawing === undefined || value === undefined) return [];
    return ([-1, 1] as const).map((way) => ({ unknown, by: next(value, drawing, way) - value }));
  }

  private takeBest(candidates: readonly (readonly Change[])[], power: number): boolean {
    const present = this.cost([], power);
    const best = candidates
      .map((changes) => ({ changes, cost: this.cost(changes, power) }))
      .filter(({ cost }) => cost < present * (1 - LEAST_GAIN))
      .sort((a, b) => a.cost - b.cost)
      .find(({ changes }) => this.allows(changes));
    if (best === undefined) return false;
    this.cents.forEach((value, note) => {
      this.cents[note] = value + this.effect(best.changes, note);
    });
    for (const { unknown, by } of best.changes) this.x[unknown] = (this.x[unknown] ?? 0) + by;
    return true;
  }

  private cost(changes: readonly Change[], power: number): number {
    const { cents } = this;
    let sum = 0;
    // Thousands of candidates: plain loops, and a power of two by squares.
    for (let note = 0; note < cents.length; note++) {
      let raised = (cents[note] as number) + this.effect(changes, note);
      for (let exponent = 1; exponent < power; exponent *= 2) raised *= raised;
      sum += raised;
    }
    return sum;
  }

  private effect(changes: readonly Change[], note: number): number {
    let sum = 0;
    for (const { unknown, by } of changes) sum += by * (this.columns[unknown]?.[note] ?? 0);
    return sum;
  }

  private allows(changes: readonly Change[]): boolean {
    const x = [...this.x];
    for (const { unknown, by } of changes) x[unknown] = (x[unknown] ?? 0) + by;
    return this.limits.every((limit) => keeps(limit, x));
  }
}
