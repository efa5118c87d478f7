/** A file of many instruments, analysed one by one with the newest messages read in between. */
import { setImmediate } from "node:timers/promises";
import { Cancelled } from "../acoustics/cancelled.js";
import type { DesignContext } from "./designContext.js";

/** Work goes on without a look at the messages for so long at most, ms: half a frame. */
const SLICE = 8;

/** After it every analysis and finding of the design is at hand. Rejects with Cancelled as soon as `shouldStop` says so. */
export async function analysed(design: DesignContext, shouldStop: () => boolean): Promise<void> {
  let begun = performance.now();
  for (const document of design.file.documents) {
    design.findings(document, shouldStop);
    if (performance.now() - begun < SLICE) continue;
    await setImmediate();
    if (shouldStop()) throw new Cancelled();
    begun = performance.now();
  }
}
