/** A design in another key, or just in tune, while walls, hands and print hold: hole places and sizes and the bore solved anew. */

import type { Column } from "../../acoustics/column.js";
import type { DesignDocument, DesignFile } from "../../document/designFile.js";
import type { TextEdit } from "../../document/textEdit.js";
import { sharedColumn } from "../../instrument/body.js";
import { centsAbove } from "../../music/cents.js";
import { t } from "../../words/translation.js";
import { comfortOf, discomfortAt } from "../constraints/comfort.js";
import { constraintsOf } from "../constraints/constraints.js";
import type { Limit } from "../constraints/limit.js";
import { limitsOf } from "../constraints/limits.js";
import { type Freedom, type Unknown, unknownsOf, valueIn } from "../constraints/unknowns.js";
import type { AnalyseOptions } from "../predict/analyse.js";
import type { Analysis } from "../predict/analysis.js";
import { governingHole } from "../predict/governing.js";
import type { Prospect } from "../rekey/nearestKey.js";
import { CannotRekey } from "../rekey/rekeyResult.js";
import type { DrawingStep } from "./drawingStep.js";
import { coarseFit, type Fit, type FitProblem, LEADING_STEPS, minimaxOf, solveFit, worstOf } from "./fit.js";
import { answersHeldFast, type HeldFast } from "./heldFast.js";
import { GOOD_DRAWN, HOPELESS, IN_TUNE, largest, refusal, unlessImpossible } from "./inTune.js";
import type { Move } from "./move.js";
import { isNoticeablyNearer } from "./neverWorse.js";
import type { Obstacle } from "./obstacle.js";
import { contradiction, drawingTooCoarse, obstaclesOf } from "./obstacles.js";
import { Infeasible } from "./quadraticProgram.js";
import { keeps } from "./quadraticStep.js";
import { roundTogether } from "./rounding.js";
import { placedByNotes, type Start, startsOf } from "./starts.js";
import { Tuner } from "./tuner.js";
import { drawingSteps, writeSolution } from "./writeSolution.js";

export interface Refit {
  readonly edits: readonly TextEdit[];
  readonly moves: readonly Move[];
  /** Whether every note is in tune as drawn. */
  readonly isInTune: boolean;
  /** What stands in the way of a better fit, worst first; empty where nothing does. Costs further fits. @param enough so many limits are tried @throws Cancelled */
  obstacles(enough?: number): readonly Obstacle[];
  /** Whether the design as it was given keeps all limits. */
  readonly keptLimits: boolean;
  /** By how much less comfortable it is than what was given, cents squared; negative where it is more so. */
  readonly discomfort?: number;
}

/** Above this a second round brings the worst note nearer; rounding may add half a cent. Cents. */
const WORTH_MINIMAX = 1.2;
/** Below this nothing is worth a note's being nearer, cents squared. */
const COMFORTABLE = 1;
/** Share of the design's tolerance within which a comfortable instrument is preferred to nearer notes. */
const ENOUGH = 0.5;
/** Trial steps from each start: enough in every case tried. */
const MOST_STEPS = 12;

export interface RefitTargets {
  /** Hz, one for each fingering. */
  readonly targets: readonly (number | undefined)[];
  /** How many times as long the instrument will be, roughly: where the search starts. */
  readonly factor: number;
  readonly freedom: Freedom;
  /** Where holes alone may move: whether the notes count that no hole decides, so that holes are not moved at their cost. */
  readonly everyNote?: boolean;
  /** How many times as long a taper will be whose widths have grown already: its slope is so much less. Default: 1. */
  readonly stretch?: number;
  /** What was drawn before any refit, which is no discomfort. Default: as it is. */
  readonly drawn?: Column;
  /** The design as another key's refit has left it: where a prospect's search starts, and needs few steps. */
  readonly like?: Analysis;
  /** Whether more work would be too much: asked on the way, and then what is found must do. Never, where it is not given. */
  readonly isSpent?: () => boolean;
}

/**
 * Solves the dimensions for `targets`. `file` and `document` are those to be edited (with the new key written already, say).
 * @throws CannotRekey where limits contradict each other; Cancelled
 */
export function refit(
  file: DesignFile,
  document: DesignDocument,
  analysis: Analysis,
  request: RefitTargets,
  options: AnalyseOptions = {},
): Refit {
  const task = taskOf(document, analysis, request, options);
  const { problem, tunable } = task;
  const present = problem.unknowns.map((unknown) => 1e3 * valueIn(unknown, task.column));
  const keptLimits = task.limits.every(({ row, least }) => keeps({ row, least: least - PINNED }, present));
  // What is right already stays to the letter: the same refit again changes nothing.
  const cents = presentCents(analysis, request.targets, tunable);
  if (keptLimits && largest(cents) <= IN_TUNE)
    return { edits: [], moves: [], isInTune: true, obstacles: () => [], keptLimits };
  try {
    // What is far off and leads nowhere is left at once: the search is long, and its result would not be taken.
    if (keptLimits && request.factor === 1 && leadsNowhere(task, present, cents)) {
      const obstacles = (enough?: number) => obstaclesTo(best(task), task, analysis, enough);
      return { edits: [], moves: [], isInTune: false, obstacles, keptLimits };
    }
    const solution = best(task);
    const comfort = comfortOf({ ...task.held, unknowns: problem.unknowns });
    return {
      discomfort: discomfortAt(comfort, solution.drawn) - discomfortAt(comfort, present),
      ...writeSolution(file, document, problem.unknowns, solution.drawn, options.shouldStop),
      keptLimits,
      isInTune: largest(solution.cents) <= IN_TUNE,
      obstacles: (enough) => obstaclesTo(solution, task, analysis, enough),
    };
  } catch (error) {
    throw refusal(error, "bore");
  }
}

/** Whether no note comes noticeably nearer in the first steps from where the dimensions are; only asked where one is far off. */
function leadsNowhere({ problem }: Task, present: readonly number[], cents: readonly number[]): boolean {
  if (largest(cents) <= HOPELESS || !Number.isFinite(largest(cents))) return false;
  return !isNoticeablyNearer(cents, coarseFit(problem, present, FIRST_STEPS).cents);
}

const FIRST_STEPS = 4;

function obstaclesTo(
  { found, cents, problem }: Solution,
  { tunable, held }: Task,
  analysis: Analysis,
  enough?: number,
): readonly Obstacle[] {
  if (largest(cents) <= IN_TUNE) return [];
  // Farther off than a drawing's steps can bring it, a note is lost to another register.
  if (worstOf(found) <= IN_TUNE && largest(cents) < SAME_NOTE)
    return [drawingTooCoarse(analysis, tunable, cents, IN_TUNE)];
  const inTheWay = obstaclesOf(problem, found, enough === 1 ? [] : answersHeldFast(held, problem, found), enough);
  return inTheWay.length > 0 ? inTheWay : [contradiction(analysis, tunable, cents, IN_TUNE)];
}

/** Cents of the fingerings `tunable` as the design is. */
export function presentCents(
  { fingerings }: Analysis,
  targets: readonly (number | undefined)[],
  tunable: readonly number[],
): readonly number[] {
  return tunable.map((index) => {
    const [hz, target] = [fingerings[index]?.predictedHz, targets[index]];
    return hz === undefined || target === undefined ? Number.POSITIVE_INFINITY : centsAbove(hz, target);
  });
}

/** Whether a refit would bring every note within the design's tolerance. @throws CannotRekey where nothing may move; Cancelled */
export function refitProspect(
  document: DesignDocument,
  analysis: Analysis,
  request: RefitTargets,
  options: AnalyseOptions = {},
): Prospect {
  const task = taskOf(document, analysis, request, options);
  return unlessImpossible(() => {
    const { tolerance } = analysis;
    const start =
      request.like === undefined ? task.starts[0] : startLike(request.like, task.problem.unknowns, request.targets);
    const coarse = coarseFit(task.problem, start);
    if (worstOf(coarse) > tolerance + HOPELESS) return "hopeless";
    const found = request.like === undefined ? best(task) : solved(task, () => coarse);
    return found !== undefined && largest(found.cents) <= tolerance ? "can" : "cannot";
  });
}

/** The dimensions of the same instrument refitted to another key, with the places that these notes want. */
function startLike(like: Analysis, unknowns: readonly Unknown[], targets: readonly (number | undefined)[]): Start {
  const column = sharedColumn(like.instrument.body);
  if (column === undefined) throw new RangeError("no column to begin from");
  return placedByNotes(unknowns, column, like, targets);
}

/** Straight from a start, without a firm prior. */
function quickFit(problem: FitProblem, start: Start): Fit {
  const coarse = coarseFit(problem, start);
  return worstOf(coarse) > WORTH_MINIMAX ? coarseFit(problem, coarse.x, MOST_STEPS) : coarse;
}

interface Task {
  readonly problem: FitProblem;
  /** As drawn. */
  readonly column: Column;
  /** The limits as stated, which the drawn dimensions keep; and as they are with the holes and stations at a point. */
  readonly limits: readonly Limit[];
  readonly limitsAt: (x: readonly number[]) => readonly Limit[];
  readonly steps: readonly DrawingStep[];
  /** The likeliest first, no two alike. */
  readonly starts: readonly [Start, ...Start[]];
  /** Fingerings that are brought in tune. */
  readonly tunable: readonly number[];
  readonly options: AnalyseOptions;
  readonly held: HeldFast;
}

function taskOf(
  document: DesignDocument,
  analysis: Analysis,
  { targets, factor, freedom, everyNote = false, stretch = 1, drawn, isSpent = () => false }: RefitTargets,
  options: AnalyseOptions,
): Task {
  const column = sharedColumn(analysis.instrument.body);
  if (column === undefined) throw new CannotRekey(t("the instrument is not fully described yet: see the findings"));
  const constraints = constraintsOf(document);
  const unknowns = unknownsOf(analysis.instrument, column, freedom, constraints);
  if (unknowns.length === 0) throw new CannotRekey(t("everything in the design is `fixed`: nothing may move"));
  const context = { analysis, column, unknowns, constraints, stretch };
  const limits = limitsOf(context);
  const steps = drawingSteps(unknowns, analysis.instrument, constraints.drills);
  const wanted = freedom === "all" || everyNote ? targets : onlyHoles(analysis, targets);
  const tuner = new Tuner({ analysis, column, unknowns, targets: wanted }, options);
  const room = limits.map((limit) => withRoom(limit, steps));
  return {
    problem: {
      tuner,
      unknowns,
      limits: room,
      comfort: comfortOf(context, drawn ?? column),
      enough: ENOUGH * analysis.tolerance,
      mostSteps: MOST_STEPS,
      isSpent,
    },
    column,
    limits,
    limitsAt: (x) => limitsOf({ ...context, placed: tuner.columnAt(x) }),
    steps,
    starts: startsOf({ unknowns, column, analysis, targets, factor }),
    tunable: tuner.tunable,
    options,
    held: {
      analysis,
      constraints,
      column,
      with: (unknown) => {
        const more = [...unknowns, unknown];
        const tuner = new Tuner({ analysis, column, unknowns: more, targets: wanted }, options);
        return {
          tuner,
          unknowns: more,
          limits: limitsOf({ ...context, unknowns: more }),
          comfort: comfortOf({ ...context, unknowns: more }, drawn ?? column),
          enough: ENOUGH * analysis.tolerance,
          mostSteps: MOST_STEPS,
          isSpent,
        };
      },
    },
  };
}

interface Solution {
  /** Of the least-squares fit, before the minimax step. */
  readonly cost: number;
  readonly found: Fit;
  /** The dimensions as they are written, mm. */
  readonly drawn: readonly number[];
  /** What they play. */
  readonly cents: readonly number[];
  /** Whether the notes' registers, counted from the bottom, are those that were followed. */
  readonly confirmed: boolean;
  /** The limits where they are, for what is in the way. */
  readonly problem: FitProblem;
}

/**
 * A fit within limits that are true where it ends, after the minimax step, as drawn.
 * @param known cost of another fit: undefined is returned where this one comes to the same place, or to a worse one
 * @throws Infeasible, RangeError, Cancelled
 */
function solved(task: Task, solve: Solve, known?: number): Solution | undefined {
  const followed = solvedIn(task, task.problem, solve, known);
  // The way there was followed; where another register came up at its end, all of it is asked anew.
  if (followed?.confirmed !== false || task.problem.isSpent()) return followed;
  return solvedIn(task, { ...task.problem, everyStepScanned: true }, solve, known);
}

function solvedIn(task: Task, asked: FitProblem, solve: Solve, known = Number.POSITIVE_INFINITY): Solution | undefined {
  let { limits } = task;
  let problem = asked;
  const first = solve(problem, known);
  if (first === undefined || first.cost > (1 - SAME) * known) return undefined;
  const { cost } = first;
  let plain = first;
  // How wide the bore is at a hole is reckoned from where the hole lay among the stations: anew where it has moved.
  for (let round = 0; round < BORE_ROUNDS; round++) {
    limits = task.limitsAt(plain.x);
    problem = { ...problem, limits: limits.map((limit) => withRoom(limit, task.steps)) };
    if (problem.limits.every((limit) => keeps(limit, plain.x))) break;
    plain = coarseFit(problem, plain.x, MOST_STEPS);
  }
  return { ...drawnFrom(task, problem, limits, plain), cost };
}

/** Fits within this share of each other's cost have found the same place. */
const SAME = 0.03;
/** Rounds for the limits that hang on the bore; one nearly always settles it. */
const BORE_ROUNDS = 3;

function drawnFrom(task: Task, problem: FitProblem, limits: readonly Limit[], plain: Fit): Omit<Solution, "cost"> {
  const { tuner } = problem;
  const minimax = worstOf(plain) > WORTH_EVENING ? plain : minimaxOf(problem, plain, WORTH_MINIMAX);
  let best: Omit<Solution, "cost"> | undefined;
  // At the edge of what sounds, rounding may lose a note: then the least-squares fit may keep it.
  for (const found of minimax === plain ? [plain] : [minimax, plain]) {
    const drawn = roundedWithin(task, tuner, found.x, limits);
    const cents = tuner.scanned(drawn)?.cents;
    if (cents === undefined) continue;
    const confirmed = isSameNotes(cents, found.cents);
    if (best === undefined || largest(cents) < largest(best.cents)) best = { found, drawn, cents, confirmed, problem };
    if (confirmed && largest(cents) <= worstOf(plain)) break;
  }
  if (best === undefined) throw new RangeError("the drawn dimensions lose a note");
  if (best.confirmed) return best;
  // What the drawing alone has lost, no other way to the same place would keep.
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
  for (let round = 0; round < BORE_ROUNDS; round++) {
    const drawn = roundTogether(tuner, x, steps, limits, GOOD_DRAWN, options.shouldStop);
    limits = limitsAt(drawn);
    if (limits.every((limit) => keeps(limit, drawn))) return drawn;
  }
  throw new Infeasible(t("no dimensions as drawn keep all limits"));
}

/** Farther off than this, the worst note is not brought nearer at the others' cost. Cents. */
const WORTH_EVENING = 25;

/** Drawing moves a note by a few cents; registers, and resonances beside them, lie farther apart. */
const SAME_NOTE = 30;

/** The best by its worst note of the fits from several starts, the first of which is the likeliest. @throws RangeError, Infeasible where none gives any */
function best(task: Task): Solution {
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
      if (best !== undefined && (largest(best.cents) <= IN_TUNE || task.problem.isSpent())) break;
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
  /** Only gone where none before has led anywhere. */
  readonly isOnlyForWant?: boolean;
}

/** From another start, given up after the first steps where it does not come near what is known. */
function fitFromAfar(
  problem: FitProblem,
  start: Start,
  home: Start,
  known = Number.POSITIVE_INFINITY,
): Fit | undefined {
  const coarse = coarseFit(problem, start, LEADING_STEPS, home);
  return coarse.cost > WORTH_GOING_ON * known ? undefined : coarseFit(problem, coarse.x, MOST_STEPS, home);
}

/** How many times as high a cost may be after the first steps. */
const WORTH_GOING_ON = 4;

/** Without the notes that no hole decides: holes would be torn about for what only the bore can do. */
function onlyHoles(
  { fingerings }: Analysis,
  targets: readonly (number | undefined)[],
): readonly (number | undefined)[] {
  return targets.map((target, i) =>
    governingHole(fingerings[i]?.fingering.covers ?? []) === undefined ? undefined : target,
  );
}

/** A dimension with one value left to it must not look like a contradiction, mm. */
const PINNED = 1e-6;

/** Limits that hold even when each dimension is rounded to the nearest step; those of one dimension are rounded inward instead. */
function withRoom(limit: Limit, steps: readonly DrawingStep[]): Limit {
  if (limit.row.size === 1) return { ...limit, least: limit.least - PINNED };
  const room = [...limit.row].reduce((sum, [i, factor]) => sum + (Math.abs(factor) * (steps[i]?.step ?? 0)) / 2, 0);
  return { ...limit, least: limit.least + room };
}
