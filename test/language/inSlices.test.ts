/** A file of several instruments is analysed with the newest messages read in between. */
import { describe, expect, it } from "vitest";
import { Cancelled } from "../../server/src/acoustics/cancelled.js";
import type { DesignContext } from "../../server/src/language/designContext.js";
import { inSlices } from "../../server/src/language/inSlices.js";
import { WHISTLE } from "../support/designs.js";
import { designOf } from "../support/language.js";

/** Longer than a slice: what the messages wait for at most, ms. */
const LONG = 20;

/** A design of ten instruments, each of which takes a while; and how many have been worked out. */
function slow() {
  const context = designOf(Array.from({ length: 10 }, () => WHISTLE).join("---\n"));
  let worked = 0;
  const findingSteps: DesignContext["findingSteps"] = function* (document) {
    const until = performance.now() + LONG;
    while (performance.now() < until);
    worked++;
    return yield* context.findingSteps(document);
  };
  return { context: { ...context, findingSteps }, worked: () => worked };
}

describe("several instruments", () => {
  it("are abandoned once a message cancels them", async () => {
    const { context, worked } = slow();
    let stop = false;
    setImmediate(() => {
      stop = true; // as a message would that has come in meanwhile
    });
    await expect(inSlices(context.file.documents, context.findingSteps, () => stop)).rejects.toThrow(Cancelled);
    expect(worked()).toBeLessThan(10);
  });

  it("are all worked out otherwise", async () => {
    const { context, worked } = slow();
    await inSlices(context.file.documents, context.findingSteps, () => false);
    expect(worked()).toBe(10);
  });
});
