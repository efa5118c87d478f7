import { describe, expect, it } from "vitest";
import { mutantsOf, mutated } from "./mutants.js";
import { wilson } from "./score.js";

const root = new URL("../..", import.meta.url).pathname;

describe("a mutant", () => {
  it("stays one expression among its neighbours", () => {
    const mutant = { id: 0, file: "", kind: "LogicalOperator", line: 1, replacement: "a || b" };
    expect(mutated("a && b && c", { ...mutant, from: 0, to: 6 })).toBe("(a || b) && c");
  });

  it("is put where StrykerJS found it", async () => {
    const { mutants, texts } = await mutantsOf(root, "server/src/music");
    const file = "server/src/music/cents.ts";
    const text = texts.get(file) ?? "";
    const found = mutants.filter((mutant) => mutant.file === file && mutant.kind === "ArithmeticOperator");
    expect(found.length).toBeGreaterThan(0);
    for (const { from, to, replacement } of found) {
      expect(text.slice(from, to).replace(/[*/+-]/g, "")).toBe(replacement.replace(/[*/+-]/g, ""));
    }
  });
});

/** R. G. Newcombe, Statistics in Medicine 17 (1998) 857, table I, "score" without continuity correction; from memory. */
it.each([
  [81, 263, 0.2553, 0.3662],
  [15, 148, 0.0624, 0.1605],
  [0, 20, 0, 0.1611],
  [1, 29, 0.0061, 0.1718],
])("the interval of %i in %i", (hits, trials, least, greatest) => {
  const interval = wilson(hits, trials);
  expect(interval.least).toBeCloseTo(least, 4);
  expect(interval.greatest).toBeCloseTo(greatest, 4);
});
