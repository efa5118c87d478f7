/** What a maker prefers: where each preference begins to be missed, and what it then counts. Shares are those of `COMFORT`. */
import { describe, expect, it } from "vitest";
import { comfortMissed, comfortOf, discomfortAt } from "../../../server/src/design/constraints/comfort.js";
import { constraintsOf } from "../../../server/src/design/constraints/constraints.js";
import { unknownsOf, valueIn } from "../../../server/src/design/constraints/unknowns.js";
import { COMFORT } from "../../../server/src/instrument/defaults.js";
import { checked, documentOf, fileOf } from "../../support/designs.js";
import { columnOf, tube } from "../../support/marked.js";

/** A cylinder of 20 mm; spacing and reach so that only what is asked of is missed. */
const textOf = (holes: readonly string[], hands = "spacing: 17") =>
  tube(
    `bore: [{ at: 0, diameter: 20 }, { at: 500, diameter: 20 }]\nholes:\n${holes.map((hole) => `  - { ${hole} }`).join("\n")}\nhands: { ${hands} }\n`,
  );

/** Preferences of a design and its dimensions, mm; `drawn` may be another design that was there first. */
function comfortIn(text: string, drawn?: string) {
  const { analysis } = checked(text);
  const [column, constraints] = [columnOf(text), constraintsOf(documentOf(fileOf(text)))];
  const unknowns = unknownsOf(analysis.instrument, column, "all", constraints);
  const comfort = comfortOf(
    { analysis, column, unknowns, constraints },
    drawn === undefined ? undefined : columnOf(drawn),
  );
  return { comfort, x: unknowns.map((unknown) => 1e3 * valueIn(unknown, column)) };
}
/** The root of what missing costs, cents. */
function missed(text: string, drawn?: string): number {
  const { comfort, x } = comfortIn(text, drawn);
  return Math.sqrt(discomfortAt(comfort, x));
}

const WIDE = { at: 200, name: "L1" };
const one = (diameter: number, name = WIDE.name) => textOf([`name: ${name}, at: ${WIDE.at}, diameter: ${diameter}`]);

describe("a hole", () => {
  it("is comfortable from 0.38 to 0.65 of the bore, beyond by its share of the bore", () => {
    expect([7.6, 10, 13].map((mm) => missed(one(mm)))).toEqual([0, 0, 0].map((each) => expect.closeTo(each, 6)));
    // A tenth of the bore.
    const cents = COMFORT.centsForWidth / 10;
    expect(missed(one(5.6))).toBeCloseTo(cents, 6);
    expect(missed(one(15))).toBeCloseTo(cents, 6);
  });
  it("may stay as wide as it was drawn", () => {
    expect(missed(one(5.6), one(5.6))).toBeCloseTo(0, 6);
    expect(missed(one(5), one(5.6))).toBeCloseTo((COMFORT.centsForWidth * 0.6) / 20, 6);
    expect(missed(one(15), one(16))).toBeCloseTo(0, 6);
    // What was comfortable leaves the whole range.
    expect(missed(one(12), one(8))).toBeCloseTo(0, 6);
  });
  it("beside another under the same finger is narrower by the root of two", () => {
    const double = (diameter: number) =>
      textOf([
        `name: L1, at: 200, angle: -28, diameter: ${diameter}`,
        `name: L1b, at: 200, angle: 28, diameter: ${diameter}`,
      ]);
    expect(missed(double(0.38 * 20 * Math.SQRT1_2 + 0.001))).toBeCloseTo(0, 6);
    expect(missed(double(5))).toBeGreaterThan(0.5);
  });
});

describe("fingers of one hand", () => {
  const apart = (mm: number, hands?: string, names = ["L1", "L2"]) =>
    textOf([`name: ${names[0]}, at: 200, diameter: 10`, `name: ${names[1]}, at: ${200 + mm}, diameter: 10`], hands);

  it("are comfortable 22 to 30 mm apart, in units of the least spacing", () => {
    expect([22, 26, 30].map((mm) => missed(apart(mm)))).toEqual([0, 0, 0].map((each) => expect.closeTo(each, 6)));
    expect(missed(apart(20))).toBeCloseTo(2 * COMFORT.centsForSpacing, 6);
    expect(missed(apart(34))).toBeCloseTo(4 * COMFORT.centsForSpacing, 6);
    expect(missed(apart(34), apart(33))).toBeCloseTo(COMFORT.centsForSpacing, 6);
    expect(missed(apart(20), apart(21))).toBeCloseTo(COMFORT.centsForSpacing, 6);
  });
  it("are stretched as far as a stated reach, and those of two hands as far apart as they like", () => {
    expect(missed(apart(38, "spacing: 17, reach: 40"))).toBeCloseTo(0, 6);
    expect(missed(apart(20, "spacing: 17, reach: 40"))).toBeCloseTo(2 * COMFORT.centsForSpacing, 6);
    expect(missed(apart(80, undefined, ["L1", "R1"]))).toBeCloseTo(0, 6);
  });
});

it("a thumb is comfortable 5 to 20 mm above its finger", () => {
  const above = (mm: number) =>
    textOf([`name: LT, at: ${200 - mm}, diameter: 10, angle: 180`, "name: L1, at: 200, diameter: 10"]);
  expect([5, 12, 20].map((mm) => missed(above(mm)))).toEqual([0, 0, 0].map((each) => expect.closeTo(each, 6)));
  expect(missed(above(2))).toBeCloseTo(3 * COMFORT.centsForSpacing, 6);
  expect(missed(above(25))).toBeCloseTo(5 * COMFORT.centsForSpacing, 6);
  expect(missed(above(25), above(24))).toBeCloseTo(COMFORT.centsForSpacing, 6);
});

it("what is missed changes by its slopes, and not at all within comfort", () => {
  const { comfort, x } = comfortIn(textOf(["name: L1, at: 200, diameter: 5", "name: L2, at: 218, diameter: 15"]));
  const here = comfortMissed(comfort, x);
  expect(here.residuals.filter((each) => each > 0)).toHaveLength(3);
  for (const [i] of x.entries()) {
    const there = comfortMissed(
      comfort,
      x.map((value, j) => (i === j ? value + 1e-3 : value)),
    );
    here.slopes.forEach((row, n) => {
      expect(row[i]).toBeCloseTo(((there.residuals[n] ?? 0) - (here.residuals[n] ?? 0)) / 1e-3, 6);
    });
  }
});
