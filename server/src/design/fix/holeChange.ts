/** How far a hole must move, or how wide it must be, to correct one note. Pure numbers; edits are made elsewhere. */

import { boreRadiusAt, type Column, type ToneHole } from "../../acoustics/column.js";
import { followedFrequencies } from "../../acoustics/follow.js";
import { Grid } from "../../acoustics/grid.js";
import { offResonance } from "../../acoustics/offResonance.js";
import { soundingSteps } from "../../acoustics/resonance.js";
import { drained, type Steps } from "../../acoustics/steps.js";
import { roundShape, sharedColumn } from "../../instrument/body.js";
import { bodyTraits } from "../../instrument/families/bodyTraits.js";
import { sameSide } from "../../instrument/hands/fingers.js";
import { centsAbove, ratioOfCents } from "../../music/cents.js";
import { holePlace, type Unknown, withValue } from "../constraints/unknowns.js";
import type { Analysis } from "../predict/analysis.js";
import { orNoneSteps } from "../predict/orNone.js";
import type { HoleChange } from "./change.js";
import { plain, secantSteps } from "./solve.js";
import { vesselHoleChangeSteps } from "./vesselHoleChange.js";

/** A solution closer than this is right: a tenth of what anybody can hear. Cents. */
const CLOSE_ENOUGH = 0.05;
/** Range in which a width is searched for, as shares of the bore's. The constraints decide what is allowed, and name the limit that forbids it. */
const SOUGHT_SHARES = [0.05, 0.95] as const;
/** Half a semitone: farther away than this, the quick way may lose the resonance. Cents. */
const FAR = 50;
/** The quick way and the full one mean the same resonance where they agree on the present deviation within this. Cents. */
const SAME_RESONANCE = 10;
/** First trial step of the solver, m. */
const TRIAL_STEP = 0.5e-3;

/**
 * What the search begins with, from what such changes come to in the examples: a hole a tenth wider sounds some ten cents sharper; pitch goes
 * as the length down to the foot, and at a hole, with another open below it, two thirds as far.
 */
const GROWTH_PER_CENT = 0.01;
const LEAST_GROWTH = 0.5;
const OF_A_HOLE = 1.5;

/** The place of a foot, m from the mouth, that corrects a note this many cents sharp; and of a hole. */
const lengthened =
  (length: number, share = 1) =>
  (cents: number) =>
    length * ratioOfCents(share * cents);

/**
 * The moves and sizes of hole `hole` that put fingering `fingering` right, everything else as it is, whether the design allows them
 * or not; those at which holes would run into one another or out of the bore are left out.
 */
export function holeChanges(analysis: Analysis, hole: number, fingering: number): readonly HoleChange[] {
  return drained(holeChangeSteps(analysis, hole, fingering));
}

/** As `holeChanges`, step by step. */
export function* holeChangeSteps(analysis: Analysis, hole: number, fingering: number): Steps<readonly HoleChange[]> {
  const { body } = analysis.instrument;
  const column = sharedColumn(body);
  if (roundShape(body) !== undefined) return yield* vesselHoleChangeSteps(analysis, hole, fingering);
  const old = column?.holes[hole];
  if (column === undefined || old === undefined) return [];
  const solve = solver(analysis, fingering);
  if (solve === undefined) return [];
  const changes: HoleChange[] = [];
  // In a vessel, holes are tuned by their size.
  const place = bodyTraits(body).holesTunedByPlace
    ? yield* solvePlace(holePlace(analysis.instrument, column, hole), column, old, solve)
    : undefined;
  if (place !== undefined) changes.push({ kind: "move", hole, fingering, value: place, change: place - old.x });
  const radius = yield* solveRadius(column, hole, old, solve);
  if (radius !== undefined)
    changes.push({ kind: "resize", hole, fingering, value: 2 * radius, change: 2 * (radius - old.radius) });
  return changes;
}

/** One dimension of the column that may change, from where it is, within bounds. */
interface TrialDimension {
  readonly now: number;
  /** Rough value that corrects a note this many cents sharp: the closer, the sooner the search ends. */
  readonly guess: (cents: number) => number;
  readonly trialStep: number;
  readonly least: number;
  readonly greatest: number;
  readonly columnWith: (value: number) => Column;
}

type Solve = (dimension: TrialDimension) => Steps<number | undefined>;

/**
 * Solves for the value of a dimension that corrects one fingering. The reactance at the wanted frequency leads there quickly.
 * Where it does not give the present deviation well, it may lead to another register: then the resonance itself is
 * asked for, and followed where the quick way fails.
 */
function solver(analysis: Analysis, index: number): Solve | undefined {
  const column = sharedColumn(analysis.instrument.body);
  const prediction = analysis.fingerings[index];
  if (column === undefined || prediction === undefined) return undefined;
  const { targetHz, predictedHz, cents } = prediction;
  const { covers, register } = prediction.fingering;
  if (targetHz === undefined || predictedHz === undefined || covers === undefined) return undefined;
  const nearly = offResonance(column, analysis.air, covers, predictedHz, targetHz);
  const isNear = Math.abs(cents ?? FAR) < FAR && Math.abs(nearly.here - (cents ?? FAR)) < SAME_RESONANCE;
  const { grid = new Grid() } = analysis;
  const scanned = function* (changed: Column): Steps<number | undefined> {
    const found = yield* orNoneSteps(() => soundingSteps(changed, analysis.air, [{ covers, register }], { grid }));
    grid.trim();
    return found?.[0]?.frequency;
  };
  const off = centsAbove(predictedHz, targetHz);
  return function* ({ now, guess, trialStep, least, greatest, columnWith }) {
    const bounds = { least, greatest, tolerance: CLOSE_ENOUGH };
    const isRight = function* (x: number): Steps<boolean> {
      const hz = yield* scanned(columnWith(x));
      return Math.abs(centsAbove(hz ?? Number.POSITIVE_INFINITY, targetHz)) <= CLOSE_ENOUGH;
    };
    const quick = yield* secantSteps(
      plain((x) => nearly.of(columnWith(x))),
      now,
      guess(nearly.here),
      { ...bounds, atFirst: nearly.here },
    );
    if (quick !== undefined && (isNear || (yield* isRight(quick)))) return quick;
    if (quick === undefined && isNear) return undefined; // the bounds are in the way
    // The resonance is followed from one trial to the next; whether it is still this register is seen at the end.
    let near: number = predictedHz;
    const followed = yield* secantSteps(
      function* (x) {
        yield undefined;
        const changed = columnWith(x);
        const [here] = followedFrequencies(changed, analysis.air, [{ covers, register }], [near], { grid }) ?? [];
        const hz = here ?? (yield* scanned(changed));
        near = hz ?? near;
        return hz === undefined ? undefined : centsAbove(hz, targetHz);
      },
      now,
      now + trialStep,
      { ...bounds, atFirst: off },
    );
    return followed !== undefined && (yield* isRight(followed)) ? followed : undefined;
  };
}

function* solvePlace(place: Unknown, column: Column, old: ToneHole, solve: Solve): Steps<number | undefined> {
  const { index, along: [mate] = [] } = place;
  const room = (other: ToneHole | undefined) =>
    other !== undefined && sameSide(other.angle, old.angle) ? halfLengthOf(other) + halfLengthOf(old) : 0;
  const before = column.holes.findLast((_, i) => i < index && i !== mate);
  const after = column.holes.find((_, i) => i > index && i !== mate);
  const end = column.bore.at(-1)?.x ?? old.x;
  const least = before === undefined ? halfLengthOf(old) : before.x + room(before);
  const greatest = after === undefined ? end - halfLengthOf(old) : after.x - room(after);
  const columnWith = (x: number) => withValue(column, place, x);
  return yield* solve({
    now: old.x,
    guess: lengthened(old.x, OF_A_HOLE),
    trialStep: TRIAL_STEP,
    least,
    greatest,
    columnWith,
  });
}

/** Half of a hole's length along the bore, m. */
const halfLengthOf = ({ radius, halfLength = radius }: ToneHole): number => halfLength;

function solveRadius(column: Column, index: number, old: ToneHole, solve: Solve): Steps<number | undefined> {
  const bore = boreRadiusAt(column.bore, old.x);
  return solve({
    now: old.radius,
    guess: (cents) => old.radius * Math.max(LEAST_GROWTH, 1 - cents * GROWTH_PER_CENT),
    trialStep: TRIAL_STEP / 2,
    least: SOUGHT_SHARES[0] * bore,
    greatest: SOUGHT_SHARES[1] * bore,
    columnWith: (radius) => withHole(column, index, { ...old, radius }),
  });
}

function withHole(column: Column, index: number, hole: ToneHole): Column {
  return { ...column, holes: column.holes.map((old, i) => (i === index ? hole : old)) };
}

/** The length of bore that puts an all-closed fingering right: new place of the foot, m; undefined where none does. */
export function footPlace(analysis: Analysis, fingering: number): number | undefined {
  return drained(footPlaceSteps(analysis, fingering));
}

/** As `footPlace`, step by step. */
export function* footPlaceSteps(analysis: Analysis, fingering: number): Steps<number | undefined> {
  const column = sharedColumn(analysis.instrument.body);
  const foot = column?.bore.at(-1);
  const solve = solver(analysis, fingering);
  if (column === undefined || foot === undefined || solve === undefined) return undefined;
  const last = column.holes.at(-1);
  const least = Math.max(column.bore.at(-2)?.x ?? 0, (last?.x ?? 0) + (last?.radius ?? 0));
  return yield* solve({
    now: foot.x,
    guess: lengthened(foot.x),
    trialStep: TRIAL_STEP,
    least: least + TRIAL_STEP,
    greatest: 3 * foot.x,
    columnWith: (x) => ({ ...column, bore: [...column.bore.slice(0, -1), { ...foot, x }] }),
  });
}
