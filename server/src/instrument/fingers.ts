/** Which holes lie under which fingers. The refit's limits pair them alike; a test holds the two together. */
import { UPPER_HAND } from "./defaults.js";

export interface FingerHole {
  /** `L1`, `R3`, `T`: the first letter tells the hand. */
  readonly name: string;
  /** Along the tube, any unit. */
  readonly at: number;
  /** Degrees round the tube, 0 the front. */
  readonly angle: number;
}

/** A finger's side of the tube: within 60° of the front. A thumb's: within 60° of the back. */
const SIDE = 0.5;
const cosine = ({ angle }: FingerHole) => Math.cos((angle * Math.PI) / 180);
const atFront = (hole: FingerHole) => cosine(hole) > SIDE;
const atBack = (hole: FingerHole) => cosine(hole) < -SIDE;

/** `L` or `R`, where the name begins with it. */
export function handOf(name: string): string | undefined {
  return /^[LR]/i.test(name) ? name.charAt(0).toUpperCase() : undefined;
}

/**
 * Pairs of holes under neighbouring fingers of one hand, upper hole first. Hands by the names where every hole in front is
 * called L… or R…; else the upper three are one hand's. Holes at the back are a thumb's and pair with nothing.
 */
export function fingerPairs<T extends FingerHole>(holes: readonly T[]): readonly (readonly [T, T])[] {
  const front = holes.filter(atFront).sort((a, b) => a.at - b.at);
  const named = front.every(({ name }) => handOf(name) !== undefined);
  const hands = front.map(({ name }, i) => (named ? handOf(name) : i < UPPER_HAND ? "upper" : "lower"));
  return front.flatMap((hole, i) => {
    const next = front[i + 1];
    return next !== undefined && hands[i] === hands[i + 1] ? [[hole, next] as const] : [];
  });
}

/** Each thumb hole with the finger hole that its hand has nearest to it; nearest of all where no hand is known. */
export function thumbPairs<T extends FingerHole>(holes: readonly T[]): readonly (readonly [thumb: T, finger: T])[] {
  const fingers = holes.filter(atFront);
  return holes.filter(atBack).flatMap((thumb) => {
    const hand = handOf(thumb.name);
    const own = fingers.filter(({ name }) => hand !== undefined && handOf(name) === hand);
    const [nearest] = [...(own.length > 0 ? own : fingers)].sort(
      (a, b) => Math.abs(a.at - thumb.at) - Math.abs(b.at - thumb.at),
    );
    return nearest === undefined ? [] : [[thumb, nearest] as const];
  });
}
