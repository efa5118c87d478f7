/** A design in another key, or just in tune, while walls, hands and print hold: hole places and sizes and the bore solved anew. */
import type { Column } from "../../acoustics/column.js";
import type { DesignDocument, DesignFile } from "../../document/designFile.js";
import type { TextEdit } from "../../document/edits.js";
import type { AnalyseOptions } from "../analyse.js";
import type { Analysis } from "../analysis.js";
import { governingHole } from "../governing.js";
import { CannotRekey } from "../rekeyResult.js";
import { Infeasible } from "./constrainedLeastSquares.js";
import { evenOut, type Fit, type FitProblem, solveFit, worstOf } from "./fit.js";
import type { Limit } from "./limit.js";
import { limitsOf } from "./limits.js";
import { roundTogether } from "./rounding.js";
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

export interface Obstacle {
  readonly message: string;
  readonly advice: string;
  /** Printed millimetres: what the limit is, and what the tuning would have wanted. */
  readonly limit: number;
  readonly needed: number;
}

/** Within this, every note counts as brought in tune; beyond, it is said what is in the way. Cents. */
const IN_TUNE = 2;
/** Above this a second round evens the notes out; rounding may add half a cent. Cents. */
const WORTH_EVENING = 1.2;
/** Drawn dimensions are tried two at a time where a note is farther off than this, cents. */
const GOOD_DRAWN = 1.5;
/** Trial steps from each start, and for seeing what a limit keeps from: enough in every case tried. */
const MOST_STEPS = 12;
const STEPS_BEYOND_A_LIMIT = 6;
/** Obstacles worth naming. */
const MOST_OBSTACLES = 2;
/** Rounding to a tenth of a millimetre may move a limited sum of two places and two radii by this much, mm. */
const ROUNDING_ROOM = 0.2;

/**
 * Solves the dimensions for `targets` (Hz, one for each fingering) starting from a size `factor` times as long.
 * `file` and `document` are those to be edited (with the new key written already, say).
 * @throws CannotRekey where limits contradict each other; Cancelled
 */
export function refit(
  file: DesignFile,
  document: DesignDocument,
  analysis: Analysis,
  request: { readonly targets: readonly (number | undefined)[]; readonly factor: number; readonly freedom: Freedom },
  options: AnalyseOptions = {},
): Refit {
  const { column } = analysis.instrument;
  if (column === undefined) throw new CannotRekey("the instrument is not fully described yet: see the findings");
  const wishes = wishesOf(document);
  const unknowns = unknownsOf(analysis.instrument, column, request.freedom, wishes.isFixed);
  if (unknowns.length === 0) throw new CannotRekey("everything in the design is `fixed`: nothing may move");
  const limits = limitsOf({ analysis, column, unknowns, wishes });
  const targets = request.freedom === "all" ? request.targets : onlyHoles(analysis, request.targets);
  // A fingering that has no such register cannot be tuned.
  const sounds = (fingering: number) => analysis.fingerings[fingering]?.predictedHz !== undefined;
  const tuner = new Tuner({ analysis, column, unknowns, targets }, sounds, options);
  const problem: FitProblem = { tuner, unknowns, limits: limits.map(withRoom), mostSteps: MOST_STEPS };
  const starts = startsFor(unknowns, column, request.factor);
  try {
    const plain = solveFit(problem, starts);
    const found = worstOf(plain) > WORTH_EVENING ? evenOut(problem, plain) : plain;
    const steps = drawingSteps(unknowns, analysis.instrument);
    const drawn = roundTogether(tuner, found.x, steps, limits, GOOD_DRAWN, options.shouldStop);
    const settled = settle(file, document, unknowns, drawn);
    return { ...settled, obstacles: worstOf(found) <= IN_TUNE ? [] : obstaclesOf(problem, found) };
  } catch (error) {
    if (error instanceof Infeasible)
      throw new CannotRekey("hands, print and the bore contradict each other: relax `hands` or the `limits`");
    if (error instanceof RangeError)
      throw new CannotRekey("no size of this bore and these holes sounds all the notes: take a key nearer to its own");
    throw error;
  }
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

/** Limits that hold even when each dimension is rounded to the nearest step; those of one dimension are rounded inward instead. */
function withRoom(limit: Limit): Limit {
  if (limit.row.size === 1) return limit;
  const terms = [...limit.row.values()].reduce((sum, factor) => sum + Math.abs(factor), 0);
  return { ...limit, least: limit.least + (ROUNDING_ROOM / 4) * terms };
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

/** The limits that bind hardest, each with what the tuning would want without it. */
function obstaclesOf(problem: FitProblem, found: Fit): readonly Obstacle[] {
  return problem.limits
    .map((limit, i) => ({ limit, multiplier: found.multipliers[i] ?? 0 }))
    .filter(({ multiplier }) => multiplier > 1e-6)
    .sort((a, b) => b.multiplier - a.multiplier)
    .slice(0, MOST_OBSTACLES)
    .flatMap(({ limit }): Obstacle[] => {
      try {
        const relaxed = {
          ...problem,
          mostSteps: STEPS_BEYOND_A_LIMIT,
          limits: problem.limits.filter((other) => other !== limit),
        };
        const free = solveFit(relaxed, [found.x]);
        const needed = limit.value(free.x);
        return [{ message: limit.complaint(needed), advice: limit.advice, limit: limit.limitAt(free.x), needed }];
      } catch (error) {
        if (error instanceof Infeasible || error instanceof RangeError) return [];
        throw error;
      }
    });
}
