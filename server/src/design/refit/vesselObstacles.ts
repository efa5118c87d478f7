/** What holds a vessel's notes back: how close they would come without each limit, and what else would bring them into tune. */

import type { Vessel } from "../../acoustics/vesselShape.js";
import type { DesignDocument } from "../../document/designFile.js";
import { numberAt } from "../../document/designNumbers.js";
import { roundShape } from "../../instrument/body.js";
import { ratioOfCents } from "../../music/cents.js";
import { t } from "../../words/translation.js";
import { sizeText } from "../constraints/limit.js";
import type { Analysis } from "../predict/analysis.js";
import { mapBody } from "../predict/body.js";
import { nameOfFingering } from "../predict/governing.js";
import { orNone } from "../predict/orNone.js";
import { centsInWords, deviationInWords, drawnLength } from "../wording.js";
import type { LeastSquaresSolution } from "./constrainedLeastSquares.js";
import { IN_TUNE, largest, NEAR } from "./inTune.js";
import type { Obstacle } from "./obstacle.js";
import { contradiction, MOST_OBSTACLES } from "./obstacles.js";
import type { RefitTargets } from "./refit.js";
import { fitFrom, withMinimax } from "./vesselFit.js";
import type { VesselLimit, VesselTuner } from "./vesselTuner.js";

/** Binding limits that are tried; the rest bind less. */
const MOST_TRIED = 3;
/** Steps of each trial: enough in every case tried. */
const STEPS = 12;
/** What drawing in steps may add to a remedy's notes before it is tried, cents. */
const FOR_DRAWING = 1;
/** Rounds in which the worst note is brought nearest, and what ends them, cents. */
const MINIMAX_ROUNDS = 4;
const LEAST_GAIN = 0.1;
/** A limit that costs the worst note less than this is not worth naming, cents. */
const WORTH_TELLING = 0.5;
/** Notes this close to the worst count as equally far off, cents. */
const AS_FAR = 1;

export interface VesselProblem {
  readonly tuner: VesselTuner;
  readonly solved: LeastSquaresSolution;
  readonly document: DesignDocument;
  readonly analysis: Analysis;
  readonly goal: RefitTargets;
}

/** The limits that hold the notes, or the notes that no size of holes and chamber brings together. @throws Cancelled */
export function vesselObstacles(problem: VesselProblem): readonly Obstacle[] {
  const { tuner, solved } = problem;
  const worst = largest(solved.residuals);
  const answers = tuner
    .binding(solved.multipliers)
    .slice(0, MOST_TRIED)
    .flatMap((limit) => answerWithout(problem, limit))
    .filter((answer) => worst - answer.worst > WORTH_TELLING)
    .sort((a, b) => a.worst - b.worst)
    .slice(0, MOST_OBSTACLES);
  const found = answers.length > 0 ? answers.map(({ obstacle }) => obstacle) : [notTogether(problem)];
  if (worst <= NEAR) return found;
  const others = [...smallerMouth(problem), ...steeperBreath(problem)];
  return found.map((each, i) => (i > 0 ? each : { ...each, advice: [each.advice, ...others].join(t(", or ")) }));
}

interface Again {
  readonly limits?: readonly VesselLimit[];
  readonly from?: readonly number[];
}

/** How close the notes come, starting from the solution; undefined if they do not sound there. */
function again(
  { solved, goal }: VesselProblem,
  tuner: VesselTuner,
  { limits = tuner.limits, from = solved.x }: Again = {},
): LeastSquaresSolution | undefined {
  const isHeld = goal.freedom !== "all";
  return orNone(() => {
    const factor = isHeld ? undefined : (from[0] ?? 1);
    let here = fitFrom(tuner, factor, from, { mostSteps: STEPS, limits });
    for (let round = 0; round < MINIMAX_ROUNDS; round++) {
      const next = withMinimax(tuner, here, isHeld, limits);
      const gain = largest(here.residuals) - largest(next.residuals);
      here = next;
      if (gain < LEAST_GAIN) break;
    }
    return here;
  });
}

function answerWithout(problem: VesselProblem, limit: VesselLimit): { obstacle: Obstacle; worst: number }[] {
  const { tuner } = problem;
  const free = again(problem, tuner, { limits: tuner.limits.filter((other) => other !== limit) });
  if (free === undefined) return [];
  const [worst, needed] = [largest(free.residuals), limit.value(free.x)];
  const message = t`${limit.message}: with ${sizeText(needed, problem.analysis)} the worst note would be ${centsInWords(worst)} off`;
  return [{ worst, obstacle: { message, advice: limit.advice, limit: limit.limit, needed, unit: "mm" } }];
}

/** If no limit holds them back: which notes disagree, and how close the rest come without one of them. */
function notTogether(problem: VesselProblem): Obstacle {
  const { tuner, solved, analysis, goal } = problem;
  const cents = solved.residuals;
  const plain = contradiction(analysis, tuner.tunable, cents, IN_TUNE);
  const worst = largest(cents);
  const extreme = tuner.tunable.filter((_, i) => Math.abs(cents[i] ?? 0) > worst - AS_FAR);
  if (goal.freedom !== "all" || worst <= NEAR) return plain;
  const rest = extreme.flatMap((index) => {
    const targets = goal.targets.map((target, i) => (i === index ? undefined : target));
    const found = again(problem, tuner.asked({ targets }));
    return found === undefined ? [] : [{ index, worst: largest(found.residuals) }];
  });
  const [best] = rest.sort((a, b) => a.worst - b.worst);
  if (best === undefined) return plain;
  const nameOf = (index: number) => nameOfFingering(analysis.fingerings[index] as Analysis["fingerings"][number]);
  const all = extreme
    .map((index) => `${nameOf(index)} ${deviationInWords(cents[tuner.tunable.indexOf(index)] ?? 0)}`)
    .join(", ");
  const [note, left] = [nameOf(best.index), centsInWords(best.worst)];
  return {
    ...plain,
    message: t`no hole widths and no chamber size bring these notes into tune together: ${all}. What each open hole contributes adds up, and no contributions give all of these notes. Without ${note} the rest come within ${left}`,
    advice: t`give ${note} another fingering, or leave it out`,
  };
}

/** Of the mouth's length and width, tried from the largest on. */
const LEAST_MOUTH = 0.6;
/** A mouth that does not bring every note near is told where it leaves no more than this share of the worst deviation. Our own choice. */
const MUCH_NEARER = 2 / 3;
/** Of a breath from the lowest note to the highest: half of it down and half up are still common on vessels. Cents; common practice, no source. */
const STEEPEST_BREATH = 200;

/** Sounding with narrower holes in a smaller chamber: what a maker does where fingertips cover no wider ones. */
function smallerMouth(problem: VesselProblem): readonly string[] {
  const { tuner, analysis, solved } = problem;
  const { instrument } = analysis;
  const shape = roundShape(instrument.body);
  if (shape === undefined || problem.goal.freedom !== "all") return [];
  const mouthAt = (share: number): Vessel["mouth"] =>
    shape.mouth.kind === "window"
      ? { ...shape.mouth, width: shape.mouth.width * share, cutUp: shape.mouth.cutUp * share }
      : { ...shape.mouth, width: shape.mouth.width * share, length: shape.mouth.length * share };
  const smaller = (share: number) =>
    tuner.asked({
      body: mapBody(instrument.body, {
        column: (column) => column,
        vessel: (vessel) => ({ ...vessel, mouth: mouthAt(share) }),
      }),
    });
  // Conductances go by the openings' sizes, and the notes by conductance over volume.
  const begun = (share: number) => solved.x.map((value, i) => value * (i === 0 ? share ** (2 / 3) : share));
  const best = leastThatServes(problem, 1, LEAST_MOUTH, (share) => ({ tuner: smaller(share), start: begun(share) }));
  if (best === undefined || best.worst > MUCH_NEARER * largest(solved.residuals)) return [];
  const mouth = mouthAt(best.value);
  const along = mouth.kind === "window" ? mouth.cutUp : mouth.length;
  const [width, other] = [mouth.width, along].map((size) => drawnLength(size, instrument));
  return best.worst <= NEAR
    ? [t`make the mouth smaller (${width} by ${other} bring every note within ${centsInWords(NEAR)})`]
    : [t`make the mouth smaller (with ${width} by ${other} the worst note would be ${centsInWords(best.worst)} off)`];
}

/** The lowest notes meant to be blown softer and the highest harder than the design says. */
function steeperBreath(problem: VesselProblem): readonly string[] {
  const { tuner, document, analysis, goal, solved } = problem;
  const { fingerings } = analysis;
  const [low, high] = ["lowest", "highest"].map((end) => numberAt(document, ["breath", end])?.value ?? 0) as [
    number,
    number,
  ];
  if (high - low >= STEEPEST_BREATH) return [];
  const notes = fingerings.flatMap(({ fingering }) => fingering.target?.midi ?? []);
  const [lowest, highest] = [Math.min(...notes), Math.max(...notes)];
  const targetsAt = (rise: number) =>
    goal.targets.map((target, i) => {
      const { path, target: note } = fingerings[i]?.fingering ?? {};
      const isOwn = path !== undefined && numberAt(document, [...path, "breath"]) !== undefined;
      if (target === undefined || note === undefined || isOwn || highest === lowest) return target;
      const share = (note.midi - lowest) / (highest - lowest) - 1 / 2;
      return target * ratioOfCents(-share * (rise - (high - low)));
    });
  const best = leastThatServes(problem, high - low, STEEPEST_BREATH, (rise) => ({
    tuner: tuner.asked({ targets: targetsAt(rise) }),
    start: solved.x,
  }));
  if (best === undefined || best.worst > NEAR) return [];
  const rise = best.value;
  const more = (rise - (high - low)) / 2;
  const stated = `breath: { lowest: ${Math.floor(low - more)}, highest: ${Math.ceil(high + more)} }`;
  return [
    t`let the breath rise by ${Math.ceil(rise)} cents from the lowest note to the highest, where ${Number((high - low).toFixed(0))} are stated (${stated} brings every note within ${centsInWords(NEAR)})`,
  ];
}

/** Trials on the way to the least change; the worst note follows it nearly in proportion. */
const MOST_TRIALS = 3;

interface Served {
  readonly value: number;
  /** Deviation of the worst note then, cents. */
  readonly worst: number;
}

/**
 * The value nearest to `now` with which every note comes near, not beyond `most`; where none does, the one of those tried with which the worst note
 * comes nearest. Undefined where the notes do not sound.
 */
function leastThatServes(
  problem: VesselProblem,
  now: number,
  most: number,
  tried: (value: number) => { readonly tuner: VesselTuner; readonly start: readonly number[] },
): Served | undefined {
  const wanted = NEAR - FOR_DRAWING;
  const at = (value: number): Served | undefined => {
    const { tuner, start } = tried(value);
    const found = again(problem, tuner, { from: start });
    return found && { value, worst: largest(found.residuals) };
  };
  let serves = at(most);
  // The farthest may be too far: holes that have to be narrower than any hole is made.
  if (serves === undefined || serves.worst > wanted) {
    const midway = at((now + most) / 2);
    if (serves === undefined || (midway !== undefined && midway.worst < serves.worst)) serves = midway;
  }
  if (serves === undefined || serves.worst > wanted) return serves;
  let fails = { value: now, worst: largest(problem.solved.residuals) };
  for (let trial = 0; trial < MOST_TRIALS && wanted - serves.worst > FOR_DRAWING / 2; trial++) {
    // Aim slightly beyond, so as not to miss it narrowly.
    const share = (fails.worst - wanted + FOR_DRAWING / 4) / (fails.worst - serves.worst);
    const next = at(fails.value + share * (serves.value - fails.value));
    if (next === undefined) break;
    if (next.worst <= wanted) serves = next;
    else fails = next;
  }
  return serves;
}
