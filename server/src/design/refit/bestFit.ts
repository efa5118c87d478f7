/** The best dimensions found from several starts: with the worst note improved, and drawn in steps within every limit. */
import type { Column } from "../../acoustics/column.js";
import type { Limit } from "../constraints/limit.js";
import type { AnalyseOptions } from "../predict/analyse.js";
import type { DrawingStep } from "./drawingStep.js";
import { coarseFit, type Fit, type FitProblem, LEADING_STEPS, minimaxOf, solveFit, tried, worstOf } from "./fit.js";
import type { HeldFast } from "./heldFast.js";
import { GOOD_DRAWN, LITTLE_OUT, largest, NotDrawable } from "./inTune.js";
import { Infeasible } from "./quadraticProgram.js";
import { keeps } from "./quadraticStep.js";
import { roundTogether } from "./rounding.js";
import type { Start } from "./starts.js";
import type { Tuner } from "./tuner.js";

/** Above this a second pass brings the worst note closer; rounding may add half a cent. Cents. */
const WORTH_MINIMAX = 1.2;
/** Below this a closer note is not worth anything more, cents squared. */
const COMFORTABLE = 1;
/** Trial steps from each start: enough in every case tried. */
export const MOST_STEPS = 12;

export interface Task {
  readonly problem: FitProblem;
  /** As drawn. */
  readonly column: Column;
  /** The limits as stated, which the drawn dimensions keep; and as they are with the holes and stations at a point. */
  readonly limits: readonly Limit[];
  readonly limitsAt: (x: readonly number[]) => readonly Limit[];
  readonly steps: readonly DrawingStep[];
  /** Stations with a joint whose place does nothing for the notes. */
  readonly staying: ReadonlySet<number>;
  /** The likeliest first, no two alike. */
  readonly starts: readonly [Start, ...Start[]];
  /** The design's, cents: within it, or little out of it, no other start is tried. Of 147 tried all the same two came nearer. */
  readonly tolerance: number;
  /** Fingerings that are brought in tune. */
  readonly tunable: readonly number[];
  readonly options: AnalyseOptions;
  readonly held: HeldFast;
  /** A fit whose worst note is farther off than this need not be drawn, cents. Default: any is. */
  readonly most?: number;
}

export interface Solution {
  /** Of the least-squares fit, before the minimax step. */
  readonly cost: number;
  readonly found: Fit;
  /** The dimensions as they are written, mm. */
  readonly drawn: readonly number[];
  /** What they play. */
  readonly cents: readonly number[];
  /** Whether the notes' registers, counted from the bottom, are those that were followed. */
  readonly confirmed: boolean;
  /** Whether one of them, as drawn, sounds another resonance than the one that was followed. */
  readonly isLost: boolean;
  /** The limits where they are, for what is in the way. */
  readonly problem: FitProblem;
}

/**
 * A fit within limits that are true where it ends, after the minimax step, as drawn.
 * @param known cost of another fit: undefined is returned where this one comes to the same place, or to a worse one; and where it is not worth drawing
 * @throws Infeasible, RangeError, Cancelled
 */
export function solved(task: Task, solve: Solve, known?: number): Solution | undefined {
  const followed = solvedIn(task, task.problem, solve, known);
  if (followed === undefined || (followed.confirmed && !followed.isLost) || task.problem.isSpent()) return followed;
  const { problem } = task;
  // Registers were followed on the way; where another one came up at its end, everything is scanned again.
  if (!followed.confirmed) return solvedIn(task, { ...problem, everyStepScanned: true }, solve, known);
  // Where the drawing alone sounds another resonance, it goes on from there with that one; not for a prospect, nor where another way is known.
  if (known !== undefined || task.most !== undefined) return followed;
  problem.tuner.restart(followed.drawn);
  const on = tried(() => solvedIn(task, problem, () => coarseFit(problem, followed.drawn, MOST_STEPS, task.starts[0])));
  return on === undefined || largest(followed.cents) < largest(on.cents) ? followed : on;
}

function solvedIn(task: Task, asked: FitProblem, solve: Solve, known = Number.POSITIVE_INFINITY): Solution | undefined {
  let { limits } = task;
  let problem = asked;
  const first = solve(problem, known);
  if (first === undefined || first.cost > (1 - SAME) * known) return undefined;
  const { cost } = first;
  let plain = first;
  // The bore's width at a hole is taken from where the hole lay among the stations: again where it has moved.
  for (let round = 0; round < BORE_ROUNDS; round++) {
    limits = task.limitsAt(plain.x);
    problem = { ...problem, limits: limits.map((limit) => withRoom(limit, task.steps)) };
    if (problem.limits.every((limit) => keeps(limit, plain.x))) break;
    plain = coarseFit(problem, plain.x, MOST_STEPS);
  }
  const drawn = drawnFrom(task, problem, limits, plain);
  return drawn && { ...drawn, cost };
}

/** Fits within this share of each other's cost have found the same place. */
const SAME = 0.03;
/** Passes for the limits that depend on the bore; one is nearly always enough. */
const BORE_ROUNDS = 3;

function drawnFrom(
  task: Task,
  problem: FitProblem,
  limits: readonly Limit[],
  plain: Fit,
): Omit<Solution, "cost"> | undefined {
  const { tuner } = problem;
  const minimax = worstOf(plain) > MOST_FOR_MINIMAX ? plain : minimaxOf(problem, plain, WORTH_MINIMAX);
  let best: Omit<Solution, "cost"> | undefined;
  // At the edge of what sounds, rounding may lose a note: then the least-squares fit may keep it.
  const { most = Number.POSITIVE_INFINITY } = task;
  if (worstOf(minimax) > most) return undefined;
  for (const found of minimax === plain ? [plain] : [minimax, plain]) {
    if (worstOf(found) > most) continue;
    const drawn = roundedWithin(task, tuner, found.x, limits);
    const cents = tuner.scanned(drawn)?.cents;
    if (cents === undefined) continue;
    const confirmed = isSameNotes(cents, found.cents);
    if (best === undefined || largest(cents) < largest(best.cents))
      best = { found, drawn, cents, confirmed, isLost: !confirmed, problem };
    if (confirmed && largest(cents) <= worstOf(plain)) break;
  }
  if (best === undefined) throw new RangeError("the drawn dimensions lose a note");
  if (best.confirmed) return best;
  // What only the drawing has lost, no other way to the same place would keep.
  const undrawn = tuner.scanned(plain.x)?.cents;
  return { ...best, confirmed: undrawn !== undefined && isSameNotes(undrawn, plain.cents) };
}

function isSameNotes(scanned: readonly number[], followed: readonly number[]): boolean {
  return scanned.every((cents, i) => Math.abs(cents - (followed[i] ?? Number.NaN)) < SAME_NOTE);
}

/** Drawn dimensions that keep the limits where they themselves put holes and stations. @throws Infeasible */
function roundedWithin(
  { steps, limitsAt, options }: Task,
  tuner: Tuner,
  x: readonly number[],
  first: readonly Limit[],
): readonly number[] {
  let limits = first;
  let drawn = x;
  for (let round = 0; round < BORE_ROUNDS; round++) {
    drawn = roundTogether(tuner, x, steps, limits, GOOD_DRAWN, options.shouldStop);
    limits = limitsAt(drawn);
    if (limits.every((limit) => keeps(limit, drawn))) return drawn;
  }
  const [missed] = limits.filter((limit) => !keeps(limit, drawn)) as [Limit];
  throw new NotDrawable(missed.complaint(missed.value(drawn)), missed.advice);
}

/** A worst note farther off than this is not improved at the others' cost. Cents. */
export const MOST_FOR_MINIMAX = 25;

/** Drawing moves a note by a few cents; registers, and resonances beside them, lie farther apart. */
export const SAME_NOTE = 30;

/** The best by its worst note of the fits from several starts, the first of which is the likeliest. @throws RangeError, Infeasible where none gives any */
export function best(task: Task): Solution {
  const [first, ...others] = task.starts;
  const ways: readonly Way[] = [
    { solve: (problem) => solveFit(problem, first) },
    // Less firmly, where the firm prior leads to where a note is lost.
    { solve: (problem) => quickFit(problem, first), isOnlyForWant: true },
    ...others.map((start): Way => ({ solve: (problem, known) => fitFromAfar(problem, start, first, known) })),
  ];
  let lost: unknown;
  let best: Solution | undefined;
  for (const { solve, isOnlyForWant } of ways) {
    if (best !== undefined && isOnlyForWant) continue;
    try {
      const found = solved(task, solve, best?.cost);
      if (found !== undefined && (best === undefined || isBetter(found, best))) best = found;
      if (best !== undefined && (largest(best.cents) <= task.tolerance + LITTLE_OUT || task.problem.isSpent())) break;
    } catch (error) {
      if (!(error instanceof RangeError || error instanceof Infeasible)) throw error;
      lost = error;
    }
  }
  if (best === undefined) throw lost;
  return best;
}

/** By the worst note; where that is near enough in both, by all that counts. */
function isBetter(one: Solution, other: Solution): boolean {
  const { enough } = one.problem;
  const [worst, otherWorst] = [largest(one.cents), largest(other.cents)];
  const areUncomfortable = Math.max(one.found.discomfort, other.found.discomfort) > COMFORTABLE;
  if (areUncomfortable && Math.max(worst, otherWorst) <= enough) return one.found.cost < other.found.cost;
  return worst < otherWorst;
}

/** @param known cost of the best fit found so far */
type Solve = (problem: FitProblem, known?: number) => Fit | undefined;

interface Way {
  readonly solve: Solve;
  /** Only tried where none before has led anywhere. */
  readonly isOnlyForWant?: boolean;
}

/** From another start, given up after the first steps where it does not come near what is known. */
function fitFromAfar(
  problem: FitProblem,
  start: Start,
  home: Start,
  known = Number.POSITIVE_INFINITY,
): Fit | undefined {
  const isFarOff = ({ cost }: Pick<Fit, "cost">, step: number) => step >= STEPS_TO_LOOK && cost > WORTH_A_LOOK * known;
  const coarse = coarseFit(problem, start, LEADING_STEPS, home, isFarOff);
  return coarse.cost > WORTH_GOING_ON * known ? undefined : coarseFit(problem, coarse.x, MOST_STEPS, home);
}

/** How many times as high a cost may be after so many steps, and after the leading ones: in the cases tried, what was farther off led nowhere. */
const WORTH_A_LOOK = 10;
const STEPS_TO_LOOK = 3;
const WORTH_GOING_ON = 4;

/** Straight from a start, without a firm prior. */
function quickFit(problem: FitProblem, start: Start): Fit {
  const coarse = coarseFit(problem, start);
  return worstOf(coarse) > WORTH_MINIMAX ? coarseFit(problem, coarse.x, MOST_STEPS) : coarse;
}

/** A dimension with one value left to it must not look like a contradiction, mm. */
export const PINNED = 1e-6;

/** Limits that hold even when each dimension is rounded to the nearest step; those of one dimension are rounded inward instead. */
export function withRoom(limit: Limit, steps: readonly DrawingStep[]): Limit {
  if (limit.row.size === 1) return { ...limit, least: limit.least - PINNED };
  const room = [...limit.row].reduce((sum, [i, factor]) => sum + (Math.abs(factor) * (steps[i]?.step ?? 0)) / 2, 0);
  return { ...limit, least: limit.least + room };
}
