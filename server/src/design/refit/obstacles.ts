/** What holds a better fit back, in the maker's words and with numbers. */

import type { Instrument } from "../../instrument/model.js";
import { t } from "../../words/translation.js";
import type { Limit } from "../constraints/limit.js";
import type { Analysis, FingeringPrediction } from "../predict/analysis.js";
import { nameOfFingering } from "../predict/governing.js";
import { mouthOf } from "../predict/mouthKnob.js";
import { centsInWords, deviationInWords, unitName } from "../wording.js";
import { expectedCost } from "./constrainedLeastSquares.js";
import { coarseFit, type Fit, type FitProblem, STIFFNESS } from "./fit.js";
import { largest } from "./inTune.js";
import type { Obstacle } from "./obstacle.js";
import { Infeasible } from "./quadraticProgram.js";
import { keeps } from "./quadraticStep.js";

/** Obstacles worth naming. */
export const MOST_OBSTACLES = 2;
/** Binding limits are dropped one after the other until this many have given a sensible answer. */
export const ENOUGH_ANSWERS = 3;
/** Trial steps to see what a limit prevents: enough in every case tried. */
export const STEPS_BEYOND_A_LIMIT = 6;

/** An obstacle, and the cost of the fit without it. */
export interface Answer {
  readonly obstacle: Obstacle;
  readonly cost: number;
}

/**
 * The binding limits without which the notes would come out best, each with the value that the tuning would then need.
 * @param others what else stands in the way
 */
export function obstaclesOf(
  problem: FitProblem,
  found: Fit,
  others: readonly Answer[] = [],
  enough = ENOUGH_ANSWERS,
): readonly Obstacle[] {
  const answers: Answer[] = [];
  for (const limit of promising(problem, found)) {
    if (answers.length >= enough || problem.isSpent()) break;
    const answer = answerWithout(problem, found, limit);
    if (answer !== undefined) answers.push(answer);
  }
  return [...answers, ...others]
    .sort((a, b) => a.cost - b.cost)
    .slice(0, MOST_OBSTACLES)
    .map(({ obstacle }) => obstacle);
}

function answerWithout(problem: FitProblem, found: Fit, limit: Limit): Answer | undefined {
  try {
    const free = coarseFit(without(problem, limit), found.x, STEPS_BEYOND_A_LIMIT);
    const needed = limit.value(free.x);
    const bound = limit.limitAt(free.x);
    if (!isSensible(needed, bound, limit.leastTold) || !isPassed(limit, free.x)) return undefined;
    const { advice } = limit;
    return {
      obstacle: { message: limit.complaint(needed), advice, limit: bound, needed, unit: "mm" },
      cost: free.cost,
    };
  } catch (error) {
    if (error instanceof Infeasible || error instanceof RangeError) return undefined;
    throw error;
  }
}

/** The limits that bind, the most promising first. */
function promising(problem: FitProblem, found: Fit): readonly Limit[] {
  const notes = problem.tuner.at(found.x);
  if (notes === undefined) return [];
  const here = { residuals: notes.cents, jacobian: problem.tuner.slopes(notes) };
  const prior = problem.unknowns.map(({ kind }, i) => ({ value: found.x[i] ?? 0, weight: STIFFNESS[kind] }));
  return problem.limits
    .filter((_, i) => (found.multipliers[i] ?? 0) > 1e-6)
    .map((limit) => {
      const cost = expectedCost({ prior, inequalities: without(problem, limit).limits }, found.x, here);
      return { limit, cost };
    })
    .sort((a, b) => a.cost - b.cost)
    .map(({ limit }) => limit);
}

function without(problem: FitProblem, limit: Limit): FitProblem {
  return { ...problem, limits: problem.limits.filter((other) => other !== limit) };
}

/** Whether a point exceeds a limit by an amount that shows in tenths of a millimetre. */
function isPassed({ row, least }: Limit, x: readonly number[]): boolean {
  return !keeps({ row, least: least - SHOWN }, x);
}

/** Millimetres. */
export const SHOWN = 0.1;

/** Without a limit the solution may no longer be an instrument; its numbers would help nobody. Millimetres. */
function isSensible(needed: number, limit: number, leastTold = 0): boolean {
  return needed > leastTold && (limit < SMALL_LIMIT || needed > limit / 3);
}

/** Walls and the like may shrink to nothing and still be worth reporting, mm. */
const SMALL_LIMIT = 5;

/**
 * For where no limit is in the way: the notes farthest off on both sides, which this bore with these holes does not bring together.
 * @param cents deviations of the fingerings `tunable`; `inTune` the deviation that would have been near enough
 */
export function contradiction(
  analysis: Analysis,
  tunable: readonly number[],
  cents: readonly number[],
  inTune: number,
): Obstacle {
  const noteOf = (value: number) => analysis.fingerings[tunable[cents.indexOf(value)] ?? -1];
  const [flattest, sharpest] = [Math.min(...cents), Math.max(...cents)];
  const isStretched = (noteOf(sharpest)?.targetHz ?? 0) > (noteOf(flattest)?.targetHz ?? 0);
  const stay = [
    staysOff(noteOf(sharpest), sharpest),
    staysOff(noteOf(flattest), flattest),
    centsInWords(inTune),
  ] as const;
  return {
    ...apartInWords(analysis.instrument, stay, isStretched),
    limit: inTune,
    needed: Math.max(sharpest, -flattest),
    unit: "cents",
  };
}

/**
 * Of notes that a bore, or a chamber, with its holes if it has some does not bring together.
 * @param isStretched whether the higher of two notes is the sharp one
 */
function apartInWords(
  { body, holes }: Instrument,
  [sharpest, flattest, wanted]: readonly [string, string, string],
  isStretched: boolean,
): Pick<Obstacle, "message" | "advice"> {
  if (body.kind === "vessel")
    return {
      message: t`${sharpest} and ${flattest}, where at most ${wanted} is asked for, and these holes and this chamber cannot bring both closer`,
      advice: t("let the chamber's size change, or give these notes other holes"),
    };
  if (holes.length > 0)
    return {
      message: t`${sharpest} and ${flattest}, where at most ${wanted} is asked for, and these holes and this bore cannot bring both closer`,
      advice: t("let a refit shape the bore (refit: { taper: free }, another station), or free what is fixed"),
    };
  const message = t`${sharpest} and ${flattest}, where at most ${wanted} is asked for, and this bore cannot bring both closer`;
  // What a small window takes of a register's length shrinks as the pitch rises.
  return isStretched && mouthOf(body)?.kind === "window"
    ? {
        message,
        advice: t(
          "take a larger window or a narrower bore, which bring the registers closer together, or let a refit shape the bore (refit: { taper: free }, another station)",
        ),
      }
    : { message, advice: t("let a refit shape the bore (refit: { taper: free }, another station)") };
}

/**
 * For where the solved dimensions are in tune and the drawn ones are not; arguments as above.
 * @param drills whether holes are bored with those at hand, which are coarser than any drawing
 */
export function drawingTooCoarse(
  { fingerings, instrument }: Analysis,
  tunable: readonly number[],
  cents: readonly number[],
  inTune: number,
  drills = false,
): Obstacle {
  const needed = largest(cents);
  const worst = cents.findIndex((value) => Math.abs(value) === needed);
  const stays = staysOff(fingerings[tunable[worst] ?? -1], cents[worst] ?? 0);
  const step = `${instrument.rounding} ${unitName(instrument)}`;
  const words = drills
    ? {
        message: t`bored with the drills at hand, ${stays}, where at most ${centsInWords(inTune)} is asked for`,
        advice: t("name a drill between them (stock.drills)"),
      }
    : {
        message: t`drawn in steps of ${step}, ${stays}, where at most ${centsInWords(inTune)} is asked for`,
        advice: t`draw in finer steps (print.rounding: ${Number((instrument.rounding / 2).toPrecision(6))})`,
      };
  return { ...words, limit: inTune, needed, unit: "cents", ofDrawing: true };
}

/** `A4 stays 3.1 cents sharp`. */
function staysOff(prediction: FingeringPrediction | undefined, cents: number): string {
  return t`${prediction === undefined ? t("a note") : nameOfFingering(prediction)} stays ${deviationInWords(cents)}`;
}
