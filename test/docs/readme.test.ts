import { readFileSync } from "node:fs";
import { join } from "node:path";
import { expect, it } from "vitest";
import { checked } from "../support/designs.js";

const ROOT = join(import.meta.dirname, "../..");
const README = readFileSync(join(ROOT, "README.md"), "utf8");

it("the README's design has no finding, and its notes are predicted", () => {
  const [, design = ""] = /```yaml\n([\s\S]*?)```/.exec(README) ?? [];
  const { findings, analysis } = checked(design);
  expect(findings.map(({ message }) => message)).toEqual([]);
  expect(analysis.summary?.count).toBe(analysis.fingerings.length);
  expect(analysis.fingerings.length).toBeGreaterThan(2);
});

it("the README quotes a finding as the first example has it", () => {
  const [, quoted = ""] = /mark the value to change: \*"([^"]+)"\*/.exec(README) ?? [];
  const { findings } = checked(readFileSync(join(ROOT, "examples/gull-first-print.bore.yaml"), "utf8"));
  expect(findings.map(({ message }) => message)).toContain(quoted);
});
