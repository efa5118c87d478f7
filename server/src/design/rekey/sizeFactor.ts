/** The factor by which an instrument must grow for a change of pitch: the same number in every table, title and command. */
import { soundingOf } from "../../acoustics/answer.js";
import { drained, type Steps } from "../../acoustics/steps.js";
import { isDescribed } from "../../instrument/body.js";
import type { Resolution } from "../../instrument/model.js";
import { centsAbove, centsOfRatio, ratioOfCents } from "../../music/cents.js";
import type { Note } from "../../music/note.js";
import type { Analysis } from "../predict/analysis.js";
import { bodySteps } from "../predict/body.js";
import { orNoneSteps } from "../predict/orNone.js";
import { instrumentAsIfSteps } from "./asIf.js";
import { targetsIn } from "./targetsIn.js";

/** Cents within which the size is right. */
const CLOSE_ENOUGH = 0.01;
const ROUNDS = 8;
/** Within this, one more secant step ends within a hundredth of a cent, because pitch is almost linear in size. Cents. */
const NEARLY_THERE = 5;
/** Cents of pitch for one cent of size, without losses. A slope farther from it than this means that a note appeared or vanished. */
const USUAL_SLOPE = -1;
const SLOPE_SLACK = 0.1;

export interface SizeFor {
  /** The key it is to play in; left out, its own. */
  readonly key?: Note | undefined;
  /** Indices of the fingerings that count; left out, all. */
  readonly among?: ReadonlySet<number>;
  /** Asked often while computing; true makes it throw `Cancelled`. */
  readonly shouldStop?: () => boolean;
}

/**
 * The factor on the print scale by which the notes' deviations in the key average zero. What does not scale stays: the printer's
 * undersize of holes, and what a design calculates from `print.scale`. If no note sounds at a size, the result is as close as possible.
 */
export function sizeFactor(resolution: Resolution, analysis: Analysis, size: SizeFor): number {
  return drained(sizeFactorSteps(resolution, analysis, size));
}

/** As `sizeFactor`, step by step. */
export function* sizeFactorSteps(
  resolution: Resolution,
  analysis: Analysis,
  { key, among, shouldStop }: SizeFor,
): Steps<number> {
  const { printScale } = analysis.instrument;
  const targets = targetsIn(resolution, key);
  const queries = analysis.fingerings.flatMap(({ fingering: { covers, register }, isBeyondBudget }, index) =>
    covers === undefined || isBeyondBudget || targets[index] === undefined || among?.has(index) === false
      ? []
      : [{ index, covers, register }],
  );
  const meanOf = (hz: (place: number) => number | undefined): number => {
    const cents = queries.flatMap(({ index }, place) => {
      const [sounding, target] = [hz(place), targets[index]];
      return sounding === undefined || target === undefined ? [] : centsAbove(sounding, target);
    });
    return cents.reduce((sum, each) => sum + each, 0) / cents.length;
  };
  const now = meanOf((place) => analysis.fingerings[queries[place]?.index ?? 0]?.predictedHz);
  let factor = Number.isFinite(now) ? ratioOfCents(now) : ratioBetween(targets, analysis);
  let before = { size: 0, mean: now };
  if (!isDescribed(analysis.instrument.body)) return factor;
  for (let round = 0; round < ROUNDS; round++) {
    yield undefined;
    const { body } = yield* instrumentAsIfSteps(resolution, { printPercent: 100 * printScale * factor });
    const options = shouldStop === undefined ? {} : { shouldStop };
    const found = isDescribed(body)
      ? yield* orNoneSteps(() => bodySteps(body, analysis.air, queries, options))
      : undefined;
    const sounding = found?.map(soundingOf);
    const mean = sounding ? meanOf((place) => sounding[place]?.frequency) : Number.NaN;
    if (!(Math.abs(mean) > CLOSE_ENOUGH)) break;
    const size = centsOfRatio(factor);
    const slope = (mean - before.mean) / (size - before.size);
    const isUsual = Math.abs(slope - USUAL_SLOPE) < SLOPE_SLACK;
    factor *= ratioOfCents(mean / (isUsual ? -slope : -USUAL_SLOPE));
    if (isUsual && Math.abs(mean) < NEARLY_THERE) break;
    before = { size, mean };
  }
  return factor;
}

/** Where nothing sounds yet: old targets over new ones. */
function ratioBetween(targets: readonly (number | undefined)[], { fingerings }: Analysis): number {
  const i = targets.findIndex((target, index) => target !== undefined && fingerings[index]?.targetHz !== undefined);
  const [old, wanted] = [fingerings[i]?.targetHz, targets[i]];
  return old === undefined || wanted === undefined ? 1 : old / wanted;
}
