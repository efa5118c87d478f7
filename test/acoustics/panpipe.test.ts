import { describe, expect, it } from "vitest";
import { soundingFrequencies } from "../../server/src/acoustics/resonance.js";
import { largest } from "../accuracy/comparison.js";
import { keefeAir, meanOf, medianOf, panPipe, panPipeLength, panPipeLip } from "../accuracy/published.js";
import { cents } from "./instruments.js";

describe("published pan pipe lengths", () => {
  it("with one length for every mouth: median error 4.2 cents, worst 24.7", () => {
    // Both worked out beforehand by another implementation, from the same table.
    expect(panPipeLength.rows).toHaveLength(20);
    expect(medianOf(panPipeLength)).toBeCloseTo(4.2, 1);
    expect(largest(panPipeLength.rows)).toBeCloseTo(24.7, 1);
  });

  it("with the lip over a little more than half of the mouth are in the middle of what the table implies", () => {
    expect(Math.abs(meanOf(panPipeLip))).toBeLessThan(10);
  });
});

it("a stopped pipe overblows near the twelfth", () => {
  const column = panPipe(150, { kind: "rim", cover: 0.55 });
  const [first, second] = soundingFrequencies(column, keefeAir, [
    { covers: [], register: 1 },
    { covers: [], register: 2 },
  ]);
  // Odd harmonics only: common practice, no source.
  expect(Math.abs(cents(second?.frequency ?? 0, 3 * (first?.frequency ?? 0)))).toBeLessThan(25);
});
