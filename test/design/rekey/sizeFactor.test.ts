/** The factor by which a design must grow for a key. */
import { expect, it } from "vitest";
import { Cancelled } from "../../../server/src/acoustics/cancelled.js";
import { sizeFactor } from "../../../server/src/design/rekey/sizeFactor.js";
import { checked, documentOf, fileOf, WHISTLE } from "../../support/designs.js";
import { note } from "../../support/vessel.js";

const { resolution } = documentOf(fileOf(WHISTLE));
const { analysis } = checked(WHISTLE);

it("is near the interval, and more for what is lost at the walls of a smaller one", () => {
  const octave = sizeFactor(resolution, analysis, { key: note("G5") });
  expect(octave).toBeLessThan(0.51);
  expect(octave).toBeGreaterThan(0.48);
});

it("is not worked out to the end where nobody waits for it", () => {
  const size = { key: note("G5"), shouldStop: () => true };
  expect(() => sizeFactor(resolution, analysis, size)).toThrow(Cancelled);
});
