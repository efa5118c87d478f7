import { describe, expect, it } from "vitest";
import { isHeld } from "../accuracy/comparison.js";
import { hornImpedances, hornResonances } from "../accuracy/horn.js";

/** Source: the lossy horn equation integrated by scipy, test/reference/horn.json and its README. */
describe.each([hornImpedances, hornResonances])("$title, against scipy", ({ rows }) => {
  it.each(rows.filter(isHeld))("$case", ({ difference, allowed }) => {
    expect(Math.abs(difference)).toBeLessThan(allowed);
  });
});
