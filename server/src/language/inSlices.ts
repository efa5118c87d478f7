/** Long work in slices, with the newest messages read in between. */
import { Cancelled } from "../acoustics/cancelled.js";
import type { Steps } from "../acoustics/steps.js";
import { nextTurn } from "./turns.js";

/** Longest work without reading messages, ms: half a frame. */
const SLICE = 8;

/** Does all steps; what they give. Rejects with Cancelled as soon as `shouldStop` says so. */
export async function sliced<T>(steps: Steps<T>, shouldStop: () => boolean): Promise<T> {
  let begun = performance.now();
  for (;;) {
    const { done, value } = steps.next();
    if (performance.now() - begun >= SLICE) {
      await nextTurn();
      if (shouldStop()) throw new Cancelled();
      begun = performance.now();
    }
    if (done) return value;
  }
}

/** Does the work on each; its results are kept for later. Rejects as `sliced` does. */
export function inSlices<T>(
  items: readonly T[],
  work: (item: T) => Steps<unknown>,
  shouldStop: () => boolean,
): Promise<void> {
  return sliced(one(items, work), shouldStop);
}

function* one<T>(items: readonly T[], work: (item: T) => Steps<unknown>): Steps<void> {
  for (const item of items) {
    yield* work(item);
    yield undefined;
  }
}
