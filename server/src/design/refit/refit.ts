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
import { stayingJoints } from "../constraints/makingLimits.js";
import { type Freedom, type Unknown, unknownsOf, valueIn } from "../constraints/unknowns.js";
import type { AnalyseOptions } from "../predict/analyse.js";
import type { Analysis } from "../predict/analysis.js";
import { governingHole } from "../predict/governing.js";
import type { Prospect } from "../rekey/nearestKey.js";
import { CannotRekey } from "../rekey/rekeyResult.js";
import {
  best,
  MOST_FOR_MINIMAX,
  MOST_STEPS,
  PINNED,
  SAME_NOTE,
  type Solution,
  solved,
  type Task,
  withRoom,
} from "./bestFit.js";
import { coarseFit, type Fit, type FitProblem, minimaxPoint, tried, worstOf } from "./fit.js";
import { answersHeldFast } from "./heldFast.js";
import { HOPELESS, IN_TUNE, largest, refusal, unlessImpossible } from "./inTune.js";
import { withJointsBack } from "./jointsBack.js";
import type { Move } from "./move.js";
import { isNoticeablyNearer } from "./neverWorse.js";
import type { Obstacle } from "./obstacle.js";
import { contradiction, drawingTooCoarse, obstaclesOf } from "./obstacles.js";
import { keeps } from "./quadraticStep.js";
import { placedByNotes, type Start, startsOf } from "./starts.js";
import { Tuner } from "./tuner.js";
import { drawingSteps, writeSolution } from "./writeSolution.js";

export interface Refit {
  readonly edits: readonly TextEdit[];
  readonly moves: readonly Move[];
  /** Whether every note is in tune as drawn. */
  readonly isInTune: boolean;
  /** What stands in the way of a better fit, worst first; empty where nothing does. Costs further fits. @param enough how many limits are tried @throws Cancelled */
  obstacles(enough?: number): readonly Obstacle[];
  /** Whether the design as it was given keeps all limits. */
  readonly keptLimits: boolean;
  /** How much less comfortable it is than what was given, cents squared; negative where it is more so. */
  readonly discomfort?: number;
}

/** Share of the design's tolerance within which a comfortable instrument is preferred to nearer notes. */
const ENOUGH = 0.5;

export interface RefitTargets {
  /** Hz, one for each fingering. */
  readonly targets: readonly (number | undefined)[];
  /** How many times as long the instrument will be, roughly: where the search starts. */
  readonly factor: number;
  readonly freedom: Freedom;
  /** Where holes alone may move: whether the notes count that no hole decides, so that holes are not moved at their cost. */
  readonly everyNote?: boolean;
  /** How many times as long a taper will be whose widths have grown already: its slope is that much less. Default: 1. */
  readonly stretch?: number;
  /** What was drawn before any refit: it is no discomfort, and its tapers are kept. Default: as it is. */
  readonly drawn?: Column;
  /** The design as another key's refit has left it: where a prospect's search starts, and needs few steps. */
  readonly like?: Analysis;
  /** Whether a refit has drawn the design just now, which has brought its worst note nearest already. Default: false. */
  readonly isRepeat?: boolean;
  /** Whether holes stay as they are undercut, whatever the design allows. Default: false. */
  readonly keepsUndercuts?: boolean;
  /** Whether more work would be too much: asked on the way, and then what is found is taken. Never, where it is not given. */
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
  // What is right already stays unchanged to the letter: the same refit again changes nothing.
  const cents = presentCents(analysis, request.targets, tunable);
  if (keptLimits && largest(cents) <= IN_TUNE)
    return { edits: [], moves: [], isInTune: true, obstacles: () => [], keptLimits };
  try {
    // A far-off start that leads nowhere is given up at once: the search is long, and its result would not be taken.
    if (keptLimits && request.factor === 1 && leadsNowhere(task, present, cents, request)) {
      const obstacles = (enough?: number) => {
        const solution = tried(() => best(task));
        if (solution === undefined) return [contradiction(analysis, tunable, cents, IN_TUNE)];
        return obstaclesTo(solution, task, analysis, enough);
      };
      return { edits: [], moves: [], isInTune: false, obstacles, keptLimits };
    }
    const solution = best(task);
    const { unknowns } = problem;
    const { staying, limitsAt } = task;
    const drawn = withJointsBack(solution.drawn, { unknowns, present, staying, limitsAt });
    const comfort = comfortOf({ ...task.held, unknowns: problem.unknowns });
    return {
      discomfort: discomfortAt(comfort, drawn) - discomfortAt(comfort, present),
      ...writeSolution(file, document, problem.unknowns, drawn, options.shouldStop),
      keptLimits,
      isInTune: largest(solution.cents) <= IN_TUNE,
      obstacles: (enough) => obstaclesTo(solution, task, analysis, enough),
    };
  } catch (error) {
    throw refusal(error, "bore");
  }
}

/** Whether no note comes noticeably nearer in the first steps from where the dimensions are; only asked where one is far off. */
function leadsNowhere(
  { problem }: Task,
  present: readonly number[],
  cents: readonly number[],
  { isRepeat = false }: RefitTargets,
): boolean {
  if (largest(cents) <= HOPELESS || !Number.isFinite(largest(cents))) return false;
  const leadsTo = (fit: Pick<Fit, "cents"> | undefined) => fit !== undefined && isNoticeablyNearer(cents, fit.cents);
  // Where the worst note is as near as it gets, another minimax step shows it at less cost than a fit.
  const isMinimax =
    isRepeat &&
    largest(cents) <= MOST_FOR_MINIMAX &&
    !leadsTo(minimaxPoint(problem, { x: present, cents }, IN_TUNE, FIRST_ROUNDS));
  return isMinimax || !leadsTo(coarseFit(problem, present, FIRST_STEPS, present, leadsTo));
}

const FIRST_STEPS = 4;
/** One is too few: a tapered flute gains half a cent in the first, seven in three. In 266 refits more gained nothing. */
const FIRST_ROUNDS = 3;

function obstaclesTo(
  { found, cents, problem }: Solution,
  { tunable, held }: Task,
  analysis: Analysis,
  enough?: number,
): readonly Obstacle[] {
  if (largest(cents) <= IN_TUNE) return [];
  // Farther off than a drawing's steps can bring it, a note is lost to another register.
  if (worstOf(found) <= IN_TUNE && largest(cents) < SAME_NOTE)
    return [drawingTooCoarse(analysis, tunable, cents, IN_TUNE, held.constraints.drills !== undefined)];
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
    const found =
      request.like === undefined ? best(task) : solved({ ...task, most: tolerance + DRAWING }, () => coarse);
    return found !== undefined && largest(found.cents) <= tolerance ? "can" : "cannot";
  });
}

/** Drawing in steps rarely brings a note nearer by more, cents. */
const DRAWING = 0.5;

/** The dimensions of the same instrument refitted to another key, with the places that these notes want. */
function startLike(like: Analysis, unknowns: readonly Unknown[], targets: readonly (number | undefined)[]): Start {
  const column = sharedColumn(like.instrument.body);
  if (column === undefined) throw new RangeError("no column to begin from");
  return placedByNotes(unknowns, column, like, targets);
}

function taskOf(
  document: DesignDocument,
  analysis: Analysis,
  {
    targets,
    factor,
    freedom,
    everyNote = false,
    stretch = 1,
    drawn,
    keepsUndercuts = false,
    isSpent = () => false,
  }: RefitTargets,
  options: AnalyseOptions,
): Task {
  const column = sharedColumn(analysis.instrument.body);
  if (column === undefined) throw new CannotRekey(t("the instrument is not fully described yet: see the findings"));
  const allowed = constraintsOf(document);
  const constraints = keepsUndercuts ? { ...allowed, undercut: 0 } : allowed;
  const unknowns = unknownsOf(analysis.instrument, column, freedom, constraints);
  if (unknowns.length === 0) throw new CannotRekey(t("everything in the design is `fixed`: nothing may move"));
  const context = { analysis, column, unknowns, constraints, kept: drawn ?? column, stretch };
  const limits = limitsOf(context);
  const steps = drawingSteps(unknowns, analysis.instrument, constraints.drills);
  const wanted = freedom === "all" || everyNote ? targets : onlyHoles(analysis, targets);
  const problemOf = (unknowns: readonly Unknown[], limits: readonly Limit[]): FitProblem => ({
    tuner: new Tuner({ analysis, column, unknowns, targets: wanted }, options),
    unknowns,
    limits,
    comfort: comfortOf({ ...context, unknowns }, drawn ?? column),
    enough: ENOUGH * analysis.tolerance,
    mostSteps: MOST_STEPS,
    isSpent,
  });
  const problem = problemOf(
    unknowns,
    limits.map((limit) => withRoom(limit, steps)),
  );
  const { tuner } = problem;
  const staying = stayingJoints(context);
  return {
    problem,
    staying,
    column,
    limits,
    limitsAt: (x) => limitsOf({ ...context, placed: tuner.columnAt(x) }),
    steps,
    starts: startsOf({ unknowns, column, analysis, targets, factor, staying }),
    tolerance: analysis.tolerance,
    tunable: tuner.tunable,
    options,
    held: {
      analysis,
      constraints,
      column,
      with: (more) => {
        const all = [...unknowns, ...more];
        return problemOf(all, limitsOf({ ...context, unknowns: all }));
      },
    },
  };
}

/** Without the notes that no hole decides: holes would be moved about for what only the bore can do. */
function onlyHoles(
  { fingerings }: Analysis,
  targets: readonly (number | undefined)[],
): readonly (number | undefined)[] {
  return targets.map((target, i) =>
    governingHole(fingerings[i]?.fingering.covers ?? []) === undefined ? undefined : target,
  );
}
