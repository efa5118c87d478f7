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

/** Within this, every note counts as brought in tune; beyond, it is said what is in the way. Cents. */
const IN_TUNE = 2;
/** Above this a second round evens the notes out; rounding may add half a cent. Cents. */
const WORTH_EVENING = 1.2;
/** Drawn dimensions are tried two at a time where a note is farther off than this, cents. */
const GOOD_DRAWN = 1.5;
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
    const { found, drawn, cents } = firstSounding([
      () => solved(task, solveFit(problem, task.starts)),
      () => solved(task, coarseFit(problem, task.starts[0] ?? [], MOST_STEPS)),
    ]);
    const settled = settle(file, document, problem.unknowns, drawn, options.shouldStop);
    if (largest(cents) <= IN_TUNE) return { ...settled, obstacles: [] };
    const inTheWay = obstaclesOf(problem, found);
    const obstacles = inTheWay.length > 0 ? inTheWay : [contradiction(analysis, counting, cents, IN_TUNE)];
    return { ...settled, obstacles };
  } catch (error) {
    if (error instanceof Infeasible)
      throw new CannotRekey("hands, print and the bore contradict each other: relax `hands` or the `limits`");
    if (error instanceof RangeError)
      throw new CannotRekey("no size of this bore and these holes sounds all the notes: take a key nearer to its own");
    throw error;
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
  try {
    const coarse = coarseFit(task.problem, task.starts[0] ?? []);
    if (worstOf(coarse) > HOPELESS) return false;
    const fine = worstOf(coarse) > WORTH_EVENING ? coarseFit(task.problem, coarse.x, MOST_STEPS) : coarse;
    if (worstOf(fine) > BEYOND_EVENING) return false;
    return largest(solved(task, fine).cents) <= IN_TUNE;
  } catch (error) {
    if (error instanceof Infeasible || error instanceof RangeError) return false;
    throw error;
  }
}

interface Task {
  readonly problem: FitProblem;
  /** The limits as stated, which the drawn dimensions keep. */
  readonly limits: readonly Limit[];
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
  const limits = limitsOf({ analysis, column, unknowns, wishes });
  const steps = drawingSteps(unknowns, analysis.instrument);
  const wanted = freedom === "all" ? targets : onlyHoles(analysis, targets);
  // A fingering that has no such register cannot be tuned.
  const sounds = (fingering: number) => analysis.fingerings[fingering]?.predictedHz !== undefined;
  const tuner = new Tuner({ analysis, column, unknowns, targets: wanted }, sounds, options);
  const room = limits.map((limit) => withRoom(limit, steps));
  return {
    problem: { tuner, unknowns, limits: room, mostSteps: MOST_STEPS },
    limits,
    steps,
    starts: startsFor(unknowns, column, factor),
    counting: tuner.counting,
    options,
  };
}

/** A fit evened out and drawn: the dimensions as they are written, and the notes they play, cents. */
function solved({ problem, limits, steps, options }: Task, plain: Fit) {
  const { tuner } = problem;
  const evened = evenOut(problem, plain, WORTH_EVENING);
  // At the edge of what sounds, rounding may lose a note: then the fit before it was evened out may keep it.
  for (const found of evened === plain ? [plain] : [evened, plain]) {
    const drawn = roundTogether(tuner, found.x, steps, limits, GOOD_DRAWN, options.shouldStop);
    if (!limits.every((limit) => keeps(limit, drawn))) throw new Infeasible("no dimensions as drawn keep all limits");
    const notes = tuner.scanned(drawn);
    if (notes !== undefined) return { found, drawn, cents: notes.cents };
  }
  throw new RangeError("the drawn dimensions lose a note");
}

/** The first of several ways that does not end where a note is lost. @throws RangeError where all do */
function firstSounding<T>(ways: readonly (() => T)[]): T {
  let lost: unknown;
  for (const way of ways) {
    try {
      return way();
    } catch (error) {
      if (!(error instanceof RangeError)) throw error;
      lost = error;
    }
  }
  throw lost;
}

function largest(cents: readonly number[]): number {
  return Math.max(0, ...cents.map(Math.abs));
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
