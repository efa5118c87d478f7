/** Work on many instruments of a file, one by one with the newest messages read in between. */
import { setImmediate } from "node:timers/promises";
import { Cancelled } from "../acoustics/cancelled.js";

/** Work goes on without a look at the messages for so long at most, ms: half a frame. */
const SLICE = 8;

/** Does `work` on each; what is kept by it is at hand after. Rejects with Cancelled as soon as `shouldStop` says so. */
export async function inSlices<T>(
  items: readonly T[],
  work: (item: T) => unknown,
  shouldStop: () => boolean,
): Promise<void> {
  let begun = performance.now();
  for (const item of items) {
    work(item);
    if (performance.now() - begun < SLICE) continue;
    await setImmediate();
    if (shouldStop()) throw new Cancelled();
    begun = performance.now();
  }
}
