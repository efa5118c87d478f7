import { describe, expect, it } from "vitest";
import { type ComparisonTable, isHeld } from "./comparison.js";

/** One test for each row that has an allowance; at least one must. */
export function holdEach({ title, rows }: ComparisonTable): void {
  const held = rows.filter(isHeld);
  describe(title, () => {
    it.each(held)("$case", ({ difference, allowed }) => {
      expect(Math.abs(difference)).toBeLessThan(allowed);
    });
    if (held.length === 0) throw new Error(`nothing is held of ${title}`);
  });
}
