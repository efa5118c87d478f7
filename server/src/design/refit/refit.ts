/** A design in another key, or just in tune, while walls, hands and print hold: hole places and sizes and the bore solved anew. */
import type { Column } from "../../acoustics/column.js";
import type { DesignDocument, DesignFile } from "../../document/designFile.js";
import type { TextEdit } from "../../document/edits.js";
import type { AnalyseOptions } from "../analyse.js";
import type { Analysis } from "../analysis.js";
import { governingHole } from "../governing.js";
import { CannotRekey } from "../rekeyResult.js";
import { Infeasible } from "./constrainedLeastSquares.js";
import { coarseFit, evenOut, type Fit, type FitProblem, solveFit, worstOf } from "./fit.js";
import { GOOD_DRAWN, IN_TUNE, largest, refusal, unlessImpossible } from "./inTune.js";
import type { Limit } from "./limit.js";
import { limitsOf } from "./limits.js";
import { contradiction, type Obstacle, obstaclesOf } from "./obstacles.js";
import { type DrawingStep, keeps, roundTogether } from "./rounding.js";
import { drawingSteps, settle } from "./settle.js";
import { Tuner } from "./tuner.js";
import { type Freedom, type Unknown, unknownsOf, valueIn } from "./unknowns.js";
import { wishesOf } from "./wishes.js";

export interface Move {
  readonly path: Unknown["path"];
  /** As drawn, in the file's unit. */
  readonly from: number;
  readonly to: number;
}

export interface Refit {
  readonly edits: readonly TextEdit[];
  readonly moves: readonly Move[];
  /** What stands in the way of a better fit, worst first; empty where nothing does. */
  readonly obstacles: readonly Obstacle[];
}

/** Above this a second round evens the notes out; rounding may add half a cent. Cents. */
const WORTH_EVENING = 1.2;
/** Trial steps from each start: enough in every case tried. */
const MOST_STEPS = 12;
/** A coarse fit that leaves more cents than this will not come right by a finer one. */
const HOPELESS = 6;
/** Evening the notes out brings the worst this far down at most, in every case tried, cents. */
const BEYOND_EVENING = 3;

export interface RefitTargets {
  /** Hz, one for each fingering. */
  readonly targets: readonly (number | undefined)[];
  /** How many times as long the instrument will be, roughly: where the search starts. */
  readonly factor: number;
  readonly freedom: Freedom;
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
  const { problem, counting } = task;
  try {
    const {
      found,
      drawn,
      cents,
      problem: there,
    } = bestOf([() => solved(task, (at) => solveFit(at, task.starts)), () => solved(task, (at) => quickFit(at, task))]);
    const settled = settle(file, document, problem.unknowns, drawn, options.shouldStop);
    if (largest(cents) <= IN_TUNE) return { ...settled, obstacles: [] };
    const inTheWay = obstaclesOf(there, found);
    const obstacles = inTheWay.length > 0 ? inTheWay : [contradiction(analysis, counting, cents, IN_TUNE)];
    return { ...settled, obstacles };
  } catch (error) {
    throw refusal(error, "bore");
  }
}

/** Whether a refit would bring every note in tune. @throws CannotRekey where nothing may move; Cancelled */
export function canBeRefitted(
  document: DesignDocument,
  analysis: Analysis,
  request: RefitTargets,
  options: AnalyseOptions = {},
): boolean {
  const task = taskOf(document, analysis, request, options);
  return unlessImpossible(() => {
    const coarse = coarseFit(task.problem, task.starts[0] ?? []);
    if (worstOf(coarse) > HOPELESS) return false;
    const fine = quickFit(task.problem, task, coarse);
    if (worstOf(fine) > BEYOND_EVENING) return false;
    return largest(solved(task, () => fine).cents) <= IN_TUNE;
  });
}

/** Straight from the first start, without a firm wish to change little. */
function quickFit(problem: FitProblem, { starts }: Task, begun?: Fit): Fit {
  const coarse = begun ?? coarseFit(problem, starts[0] ?? []);
  return worstOf(coarse) > WORTH_EVENING ? coarseFit(problem, coarse.x, MOST_STEPS) : coarse;
}

interface Task {
  readonly problem: FitProblem;
  /** The limits as stated, which the drawn dimensions keep; and as they are with the holes and stations at a point. */
  readonly limits: readonly Limit[];
  readonly limitsAt: (x: readonly number[]) => readonly Limit[];
  readonly steps: readonly DrawingStep[];
  readonly starts: readonly (readonly number[])[];
  /** Fingerings that are brought in tune. */
  readonly counting: readonly number[];
  readonly options: AnalyseOptions;
}

function taskOf(
  document: DesignDocument,
  analysis: Analysis,
  { targets, factor, freedom }: RefitTargets,
  options: AnalyseOptions,
): Task {
  const { column } = analysis.instrument;
  if (column === undefined) throw new CannotRekey("the instrument is not fully described yet: see the findings");
  const wishes = wishesOf(document);
  const unknowns = unknownsOf(analysis.instrument, column, freedom, wishes.isFixed);
  if (unknowns.length === 0) throw new CannotRekey("everything in the design is `fixed`: nothing may move");
  const context = { analysis, column, unknowns, wishes };
  const limits = limitsOf(context);
  const steps = drawingSteps(unknowns, analysis.instrument);
  const wanted = freedom === "all" ? targets : onlyHoles(analysis, targets);
  const tuner = new Tuner({ analysis, column, unknowns, targets: wanted }, options);
  const room = limits.map((limit) => withRoom(limit, steps));
  return {
    problem: { tuner, unknowns, limits: room, mostSteps: MOST_STEPS },
    limits,
    limitsAt: (x) => limitsOf({ ...context, placed: tuner.columnAt(x) }),
    steps,
    starts: startsFor(unknowns, column, factor),
    counting: tuner.counting,
    options,
  };
}

interface Solution {
  readonly found: Fit;
  /** The dimensions as they are written, mm. */
  readonly drawn: readonly number[];
  /** What they play. */
  readonly cents: readonly number[];
  /** The limits where they are, for what is in the way. */
  readonly problem: FitProblem;
}

/** A fit within limits that are true where it ends, evened out and drawn. @throws Infeasible, RangeError, Cancelled */
function solved(task: Task, solve: (problem: FitProblem) => Fit): Solution {
  let { problem, limits } = task;
  let plain = solve(problem);
  // How wide the bore is at a hole is reckoned from where the hole lay among the stations: anew where it has moved.
  for (let round = 0; round < BORE_ROUNDS; round++) {
    limits = task.limitsAt(plain.x);
    problem = { ...problem, limits: limits.map((limit) => withRoom(limit, task.steps)) };
    if (problem.limits.every((limit) => keeps(limit, plain.x))) break;
    plain = coarseFit(problem, plain.x, MOST_STEPS);
  }
  return drawnFrom(task, problem, limits, plain);
}

/** Rounds for the limits that hang on the bore; one nearly always settles it. */
const BORE_ROUNDS = 3;

function drawnFrom({ steps, options }: Task, problem: FitProblem, limits: readonly Limit[], plain: Fit): Solution {
  const { tuner } = problem;
  const evened = evenOut(problem, plain, WORTH_EVENING);
  // At the edge of what sounds, rounding may lose a note: then the fit before it was evened out may keep it.
  for (const found of evened === plain ? [plain] : [evened, plain]) {
    const drawn = roundTogether(tuner, found.x, steps, limits, GOOD_DRAWN, options.shouldStop);
    if (!limits.every((limit) => keeps(limit, drawn))) throw new Infeasible("no dimensions as drawn keep all limits");
    const notes = tuner.scanned(drawn);
    if (notes !== undefined) return { found, drawn, cents: notes.cents, problem };
  }
  throw new RangeError("the drawn dimensions lose a note");
}

/** The first of several ways that brings every note in tune, else the best by its worst note. @throws RangeError where all lose one */
function bestOf(ways: readonly (() => Solution)[]): Solution {
  let lost: unknown;
  let best: Solution | undefined;
  for (const way of ways) {
    try {
      const found = way();
      if (best === undefined || largest(found.cents) < largest(best.cents)) best = found;
      if (largest(best.cents) <= IN_TUNE) break;
    } catch (error) {
      if (!(error instanceof RangeError)) throw error;
      lost = error;
    }
  }
  if (best === undefined) throw lost;
  return best;
}

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

/** Places grown with the key and sizes as they are; everything grown. Millimetres. */
function startsFor(unknowns: readonly Unknown[], column: Column, factor: number): readonly (readonly number[])[] {
  const scaled = (unknown: Unknown, sizes: number, places: number) => {
    const isPlace = unknown.kind === "hole-place" || unknown.kind === "station-place";
    return 1e3 * valueIn(unknown, column) * (isPlace ? places : sizes);
  };
  return [
    unknowns.map((unknown) => scaled(unknown, 1, factor)),
    unknowns.map((unknown) => scaled(unknown, factor, factor)),
  ];
}
