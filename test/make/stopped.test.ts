/** Building a solid stops when it is cancelled. */
import { expect, it } from "vitest";
import { Cancelled } from "../../server/src/acoustics/cancelled.js";
import { makeSolid } from "../../server/src/make/solid/build.js";
import { documentOf, fileOf, WHISTLE } from "../support/designs.js";

it("a solid can be cancelled midway, and the next one is made", async () => {
  const { resolution } = documentOf(fileOf(WHISTLE));
  let asked = 0;
  await expect(makeSolid(resolution, () => ++asked > 5)).rejects.toThrow(Cancelled);
  expect(asked).toBe(6);
  expect((await makeSolid(resolution)).parts).toHaveLength(2);
});
