/** Ways to cover the holes: each open or closed, and at most one of them half. */
import type { Cover } from "../../acoustics/column.js";
import type { Steps } from "../../acoustics/steps.js";
import { HALF_COVER } from "../../instrument/defaults.js";

/** Up to nine holes, all ways are tried (2816); with more, those near a known fingering. */
const MOST = 3000;
const CLOSED: Cover = 1;
const OPEN: Cover = 0;

/**
 * Every way, or where there are too many those that differ in one or two holes from a known one or from the plain scale, which opens
 * one hole after the other from the foot.
 */
export function* patternSteps(
  holes: number,
  known: readonly (readonly Cover[])[],
  withHalves: boolean,
): Steps<readonly (readonly Cover[])[]> {
  const count = 2 ** holes * (withHalves ? 1 + holes / 2 : 1);
  if (count <= MOST) return all(holes, withHalves);
  const plain = Array.from({ length: holes + 1 }, (_, closed) =>
    Array.from({ length: holes }, (_, i) => (i < closed ? CLOSED : OPEN)),
  );
  const found = new Map<string, readonly Cover[]>();
  const states = withHalves ? [CLOSED, OPEN, HALF_COVER] : [CLOSED, OPEN];
  // Whether a fingering stops the foot is ignored.
  const ofHoles = known.map((covers) => covers.slice(0, holes));
  let tried = 0;
  for (let distance = 0; distance <= FARTHEST; distance++) {
    for (const covers of changed([...ofHoles, ...plain], states, distance)) {
      if (++tried % TRIED_AT_ONCE === 0) yield;
      if (halvesIn(covers) <= 1) found.set(covers.join(), covers);
      if (found.size === MOST) return [...found.values()];
    }
  }
  return [...found.values()];
}

/** Well below a millisecond, with a hundred holes. */
const TRIED_AT_ONCE = 50;

/** Holes in which a way differs from one that is known. */
const FARTHEST = 2;

/** With this many holes changed, one way after the other: for a hundred holes there are millions, of which only the first are needed. */
function* changed(
  from: readonly (readonly Cover[])[],
  states: readonly Cover[],
  holes: number,
): Generator<readonly Cover[]> {
  if (holes === 0) return yield* from;
  for (const covers of changed(from, states, holes - 1))
    for (let i = 0; i < covers.length; i++) for (const state of states) yield covers.with(i, state);
}

export function halvesIn(covers: readonly Cover[]): number {
  return covers.filter((cover) => cover !== CLOSED && cover !== OPEN).length;
}

function all(holes: number, withHalves: boolean): readonly (readonly Cover[])[] {
  const whole = Array.from({ length: 2 ** holes }, (_, bits) =>
    Array.from({ length: holes }, (_, i) => ((bits >> i) & 1 ? OPEN : CLOSED)),
  );
  if (!withHalves) return whole;
  // Only from the closed pattern; otherwise each would appear twice.
  const half = whole.flatMap((covers) =>
    covers.flatMap((cover, i) => (cover === CLOSED ? [covers.with(i, HALF_COVER)] : [])),
  );
  return [...whole, ...half];
}
