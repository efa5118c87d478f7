/** Sizes of other bodies by rule: each power against its formula worked out here, and the page's check values. */
import { readFileSync } from "node:fs";
import { join } from "node:path";
import { describe, expect, it } from "vitest";
import { BODY_NAMES, bodyCalled, NOTHING_BUT_THE_RULE } from "../../../server/src/design/scale/bodies.js";
import { runProgram } from "../../support/program.js";

const ROOT = join(import.meta.dirname, "../../..");
const PAGE = readFileSync(join(ROOT, "docs/sizes.md"), "utf8");

/** The root of `f` between two places of unlike sign. */
function root(f: (x: number) => number, least: number, most: number): number {
  let [a, b] = [least, most];
  for (let i = 0; i < 60; i++) {
    const middle = (a + b) / 2;
    if (Math.sign(f(middle)) === Math.sign(f(a))) a = middle;
    else b = middle;
  }
  return a;
}
/** J and I of order n by their power series: `sign` −1 and 1. */
function bessel(n: number, x: number, sign: number): number {
  let [sum, term] = [0, 1];
  for (let k = 1; k <= n; k++) term *= x / 2 / k;
  for (let k = 0; k < 40; k++) {
    sum += term;
    term *= (sign * (x / 2) ** 2) / ((k + 1) * (k + 1 + n));
  }
  return sum;
}

/** Roots from their own equations: a free bar's cos β cosh β = 1, a membrane's J₀ = 0, a clamped plate's J₀ I₁ + I₀ J₁ = 0. */
const BAR = root((x) => Math.cos(x) * Math.cosh(x) - 1, 4.2, 5.2);
const MEMBRANE = root((x) => bessel(0, x, -1), 2, 3);
const PLATE = root((x) => bessel(0, x, -1) * bessel(1, x, 1) + bessel(0, x, 1) * bessel(1, x, -1), 3, 3.4);

const string = (s: number, pull: number) =>
  Math.sqrt((60 * pull) / (7850 * Math.PI * (0.15e-3 * s) ** 2)) / (2 * 0.65 * s);
const bar = (s: number) =>
  (BAR ** 2 / (2 * Math.PI * (0.2 * s) ** 2)) * ((0.01 * s) / Math.sqrt(12)) * Math.sqrt(70e9 / 2700);
const plate = (s: number) =>
  (PLATE ** 2 / (2 * Math.PI * (0.1 * s) ** 2)) * Math.sqrt((110e9 * (1e-3 * s) ** 2) / (12 * (1 - 0.35 ** 2) * 8500));
const membrane = (s: number, pull: number, weight: number) =>
  (MEMBRANE / (2 * Math.PI * 0.15 * s)) * Math.sqrt((3000 * pull) / (0.26 * weight));

const GROWN = 1.25;
/** By body, in the order of its rules: Hz as it is and grown, and to how many digits the page has them. */
const CHECKS: Record<string, readonly (readonly [number, number, number])[]> = {
  string: [
    [string(1, 1), string(GROWN, 1), 2],
    [string(1, 1), string(GROWN, GROWN ** 2), 2],
  ],
  bar: [[bar(1), bar(GROWN), 1]],
  plate: [[plate(1), plate(GROWN), 2]],
  membrane: [
    [membrane(1, 1, 1), membrane(GROWN, 1, GROWN), 2],
    [membrane(1, 1, 1), membrane(GROWN, GROWN, GROWN), 2],
    [membrane(1, 1, 1), membrane(GROWN, 1, 1), 2],
  ],
  // Similarity alone: no formula to work out.
  bell: [],
};

describe.each(BODY_NAMES)("a %s", (name) => {
  const { rules, source } = bodyCalled(name);

  it("grows by its formula's power, and the page says so", () => {
    for (const [i, [before, after, digits]] of (CHECKS[name] ?? []).entries()) {
      expect(Math.log(after / before) / Math.log(GROWN)).toBeCloseTo(rules[i]?.power ?? Number.NaN, 9);
      expect(PAGE).toContain(`${before.toFixed(digits)} → ${after.toFixed(digits)} |`);
    }
    for (const { power } of rules) expect(PAGE).toMatch(new RegExp(`^\\| ${name}.*\\| −${-power} \\|`, "m"));
  });

  it("is answered with its source and the statement that nothing else is behind it", async () => {
    const { stdout } = await runProgram(["scale", "A4", "200", "--body", name], ROOT);
    expect(NOTHING_BUT_THE_RULE).toMatch(/^By rule alone: .*no model of such a body and no measurement/);
    expect(stdout).toContain(NOTHING_BUT_THE_RULE);
    expect(stdout).toContain(source);
    // Twice the size: an octave lower for each power of one.
    for (const { power } of rules)
      expect(stdout).toContain(
        power === -1 ? "sounds A3 0.0 cents" : power === -2 ? "sounds A2 0.0" : "sounds Eb3 0.0",
      );
  });
});
