import { readFileSync } from "node:fs";
import { join } from "node:path";
import { expect, it } from "vitest";
import { checked } from "../support/designs.js";

const README = readFileSync(join(import.meta.dirname, "../../README.md"), "utf8");

it("the README's design has no finding, and its notes are predicted", () => {
  const [, design = ""] = /```yaml\n([\s\S]*?)```/.exec(README) ?? [];
  const { findings, analysis } = checked(design);
  expect(findings.map(({ message }) => message)).toEqual([]);
  expect(analysis.summary?.count).toBe(analysis.fingerings.length);
  expect(analysis.fingerings.length).toBeGreaterThan(2);
});
