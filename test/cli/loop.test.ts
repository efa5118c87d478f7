/** Solid, print, play, listen, calibrate, retune, print again: the second print lands. docs/loop.md has every family. */
import { expect, it } from "vitest";
import { prints, RIGHT } from "../support/loopPrints.js";

it("brings a pan pipe of a simulated workshop into tune with its second print", async () => {
  const [first, second] = await prints("breakwater-pipes.bore.yaml", 1, 2);
  expect(first).toBeGreaterThan(2 * RIGHT);
  expect(second).toBeLessThanOrEqual(RIGHT);
});
