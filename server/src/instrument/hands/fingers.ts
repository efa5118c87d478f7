/** Which holes lie under which fingers: the findings, the limits of every proposal and the reports pair them by this alone. */
import { EASY_SIDEWAYS_MILLIMETRES, ONE_FINGER_MILLIMETRES, UPPER_HAND } from "../defaults.js";
import { degreesBetween } from "../making/wallGap.js";

export interface FingerHole {
  /** `L1`, `R3`, `T`: the first letter tells the hand. */
  readonly name: string;
  /** Along the tube, mm of the finished object. */
  readonly at: number;
  /** Degrees round the tube, 0 the front. */
  readonly angle: number;
  /** Along the tube, mm. */
  readonly length: number;
  /** From the axis to the outer surface at the hole, mm; NaN where that is not known. */
  readonly outer: number;
}

/** What one finger covers: a hole, or two small ones side by side. `at`, `angle` and `outer` are the middle's. */
export interface Finger<T extends FingerHole> extends Omit<FingerHole, "length"> {
  readonly holes: readonly [T, ...T[]];
}

/** Neighbouring fingers of one hand; the last of one hand and the first of the other are `hands`. */
export type FingersApart = "indexMiddle" | "middleRing" | "ringLittle" | "hands";

export interface FingerPair<T extends FingerHole> {
  readonly upper: Finger<T>;
  readonly lower: Finger<T>;
  readonly which: FingersApart;
  /** Between the centres: along the tube, and round it on the outer surface, mm. */
  readonly along: number;
  readonly across: number;
}

/** Cosine of 60°. A thumb's side of the tube is within this angle of the back; the rest is the fingers', who reach round for what is turned. */
const SIDE = 0.5;
const RADIANS = Math.PI / 180;

/** Whether two directions round a tube, radians, lie on one side of it: where holes share the length of the wall, and fingers their place. */
export function sameSide(a: number, b: number): boolean {
  return Math.cos(a - b) > SIDE;
}

const cosine = ({ angle }: Pick<FingerHole, "angle">) => Math.cos(angle * RADIANS);

/** `L` or `R`, where the name begins with it. */
export function handOf(name: string): string | undefined {
  return /^[LR]/i.test(name) ? name.charAt(0).toUpperCase() : undefined;
}

/**
 * Two holes that lie side by side and nearer than two fingers can: one finger covers both, or rolls off one of them. Each hole is in one
 * pair at most; thumb holes pair alike.
 */
export function doubleHoles<T extends FingerHole>(holes: readonly T[]): readonly (readonly [T, T])[] {
  const taken = new Set<T>();
  return [...holes]
    .sort((a, b) => a.at - b.at)
    .flatMap((hole, i, sorted) => {
      if (taken.has(hole)) return [];
      const mate = sorted.slice(i + 1).find((other) => !taken.has(other) && isBeside(hole, other));
      if (mate === undefined) return [];
      taken.add(hole).add(mate);
      return [[hole, mate] as const];
    });
}

function isBeside(a: FingerHole, b: FingerHole): boolean {
  const [along, lengths] = [Math.abs(a.at - b.at), (a.length + b.length) / 2];
  const apart = Math.hypot(along, acrossOf(a, b));
  // Holes that run into each other are a mistake, not a pair.
  return (
    along < lengths &&
    apart >= lengths &&
    apart < ONE_FINGER_MILLIMETRES &&
    degreesBetween(a.angle, b.angle) <= MOST_TURN
  );
}

/** Degrees between two holes under one finger: farther round, one is a thumb's. */
const MOST_TURN = 90;

/** Round the tube on its outer surface, mm. */
function acrossOf(a: Omit<FingerHole, "length">, b: Omit<FingerHole, "length">): number {
  const turn = degreesBetween(a.angle, b.angle);
  return turn === 0 ? 0 : turn * RADIANS * ((a.outer + b.outer) / 2);
}

/** What each finger and thumb covers, from the mouth to the foot. */
export function fingersOf<T extends FingerHole>(holes: readonly T[]): readonly Finger<T>[] {
  const pairs = doubleHoles(holes);
  const single = holes.filter((hole) => !pairs.some((pair) => pair.includes(hole)));
  const fingers = [
    ...single.map((hole): Finger<T> => ({ ...placeOf(hole), holes: [hole] })),
    ...pairs.map(([a, b]): Finger<T> => {
      const turn = ((((b.angle - a.angle + 180) % 360) + 360) % 360) - 180;
      const [at, outer] = [(a.at + b.at) / 2, (a.outer + b.outer) / 2];
      return { name: a.name, at, angle: a.angle + turn / 2, outer, holes: [a, b] };
    }),
  ];
  return fingers.sort((a, b) => a.at - b.at);
}

function placeOf({ name, at, angle, outer }: FingerHole): Omit<FingerHole, "length"> {
  return { name, at, angle, outer };
}

/** Which two fingers they are, by how many fingers of the hand come before them; past the fourth finger, its last two. */
export function fingersFrom(before: number): Exclude<FingersApart, "hands"> {
  if (before === 0) return "indexMiddle";
  return before === 1 ? "middleRing" : "ringLittle";
}

/**
 * Fingers that lie beside each other, upper one first. Hands by the names where every hole in front is called L… or R…; else the upper
 * three are one hand's. The uppermost finger of a hand is its index finger. Holes at the back are a thumb's and pair with nothing.
 */
export function fingerPairs<T extends FingerHole>(holes: readonly T[]): readonly FingerPair<T>[] {
  const front = fingersOf(holes).filter((finger) => cosine(finger) > -SIDE);
  const named = front.every(({ name }) => handOf(name) !== undefined);
  const hands = front.map(({ name }, i) => (named ? handOf(name) : i < UPPER_HAND ? "upper" : "lower"));
  return front.slice(1).map((lower, n): FingerPair<T> => {
    const upper = front[n] ?? lower;
    const which = hands[n] === hands[n + 1] ? fingersFrom(n - hands.indexOf(hands[n])) : "hands";
    return { upper, lower, which, along: lower.at - upper.at, across: acrossOf(upper, lower) };
  });
}

/** Each thumb's hole with the finger that its hand has nearest to it; nearest of all where no hand is known. */
export function thumbPairs<T extends FingerHole>(
  holes: readonly T[],
): readonly (readonly [thumb: Finger<T>, finger: Finger<T>])[] {
  const all = fingersOf(holes);
  const fingers = all.filter((finger) => cosine(finger) > -SIDE);
  return all
    .filter((finger) => cosine(finger) < -SIDE)
    .flatMap((thumb) => {
      const hand = handOf(thumb.name);
      const own = fingers.filter(({ name }) => hand !== undefined && handOf(name) === hand);
      const [nearest] = [...(own.length > 0 ? own : fingers)].sort(
        (a, b) => Math.abs(a.at - thumb.at) - Math.abs(b.at - thumb.at),
      );
      return nearest === undefined ? [] : [[thumb, nearest] as const];
    });
}

/** How far two fingers stand apart, mm: straight from centre to centre, a little to the side left out, which costs no reach. */
export function stretchOf({ along, across }: { readonly along: number; readonly across: number }): number {
  return Math.hypot(along, sideways(across));
}

/** How far apart along the tube fingers with this reach may be, mm; 0 where the turn alone is too much. */
export function alongWithin(reach: number, across: number): number {
  return Math.sqrt(Math.max(0, reach ** 2 - sideways(across) ** 2));
}

function sideways(across: number): number {
  return Math.max(0, across - EASY_SIDEWAYS_MILLIMETRES);
}
