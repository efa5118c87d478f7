/** Among dimensions that play nearly alike a refit takes those that somebody would make and hold. */
import { describe, expect, it } from "vitest";
import { comfortOf, discomfortAt } from "../../../server/src/design/constraints/comfort.js";
import { constraintsOf } from "../../../server/src/design/constraints/constraints.js";
import { unknownsOf, valueIn } from "../../../server/src/design/constraints/unknowns.js";
import { retune } from "../../../server/src/design/refit/rekeyByRefit.js";
import { sharedColumn } from "../../../server/src/instrument/body.js";
import { checked, documentOf, fileOf } from "../../support/designs.js";

/** A first drawing: every hole's notes 35 to 60 cents flat. Without preferring comfort L1 became 2.8 mm wide, 39.5 mm above L2. */
const SLIPWAY = `borewright: 1
family: duct
key: D5
air: { temperature: 20 }
mouth: { window: { width: 8.5, cutUp: 4 } }
bore: [{ at: 0, diameter: 13 }, { at: 262, diameter: 13 }]
wall: 1.5
holes:
  - { name: L1, at: 122, diameter: 6 }
  - { name: L2, at: 143, diameter: 7 }
  - { name: L3, at: 164, diameter: 7 }
  - { name: R1, at: 186, diameter: 6 }
  - { name: R2, at: 204, diameter: 7.5 }
  - { name: R3, at: 228, diameter: 6 }
fingerings:
  - { degree: 1, holes: xxxxxx }
  - { degree: 2, holes: xxxxxo }
  - { degree: 3, holes: xxxxoo }
  - { degree: 4, holes: xxxooo }
  - { degree: 5, holes: xxoooo }
  - { degree: 6, holes: xooooo }
  - { degree: 7, holes: oooooo }
  - { degree: 8, holes: xxxxxx, register: 2 }
  - { degree: 9, holes: xxxxxo, register: 2 }
  - { degree: 10, holes: xxxxoo, register: 2 }
  - { degree: 11, holes: xxxooo, register: 2 }
  - { degree: 12, holes: xxoooo, register: 2 }
  - { degree: 13, holes: xooooo, register: 2 }
`;

describe("a refit of a whistle drawn far too flat", () => {
  it("gives holes that fingers cover, at distances that a hand holds", () => {
    const { after, text } = retune(fileOf(SLIPWAY), 0, "all");
    expect(Math.abs(after.summary?.worstCents ?? 99)).toBeLessThan(5.5);
    const column = columnOf(text);
    const diameters = column.holes.map(({ radius }) => 2e3 * radius);
    const places = column.holes.map(({ x }) => 1e3 * x);
    expect(Math.min(...diameters)).toBeGreaterThan(4);
    expect(Math.max(...diameters) / Math.min(...diameters)).toBeLessThan(2.2);
    // One hand's fingers; 30 mm is comfortable (`COMFORT`), 42 the most.
    const [l1 = 0, l2 = 0, l3 = 0, r1 = 0, r2 = 0, r3 = 0] = places;
    for (const apart of [l2 - l1, l3 - l2, r2 - r1, r3 - r2]) expect(apart).toBeLessThan(31);
  });
});

describe("what a maker prefers", () => {
  it("accepts whatever was drawn, and penalizes other holes as wide as three quarters of the bore", () => {
    const text = SLIPWAY.replaceAll(/(at: \d+, diameter: )[67](\.5)?( })/g, "$19.8$3");
    const { analysis, column, unknowns, constraints } = contextOf(text);
    const present = unknowns.map((unknown) => 1e3 * valueIn(unknown, column));
    const context = { analysis, column, unknowns, constraints };
    expect(discomfortAt(comfortOf(context, column), present)).toBeCloseTo(0, 9);
    expect(discomfortAt(comfortOf(context), present)).toBeGreaterThan(10);
  });

  it("treats a stated reach as comfortable", () => {
    const far = SLIPWAY.replace("at: 122", "at: 105");
    const stretched = (text: string) => {
      const { analysis, column, unknowns, constraints } = contextOf(text);
      const comfort = comfortOf({ analysis, column, unknowns, constraints });
      return discomfortAt(
        comfort,
        unknowns.map((unknown) => 1e3 * valueIn(unknown, column)),
      );
    };
    expect(stretched(`${far}hands: { reach: 42 }\n`)).toBeLessThan(stretched(far) - 10);
  });
});

function columnOf(text: string) {
  const column = sharedColumn(documentOf(fileOf(text)).resolution.instrument.body);
  if (column === undefined) throw new Error("no column");
  return column;
}

function contextOf(text: string) {
  const { analysis } = checked(text);
  const constraints = constraintsOf(documentOf(fileOf(text)));
  const column = columnOf(text);
  return { analysis, column, constraints, unknowns: unknownsOf(analysis.instrument, column, "all", constraints) };
}
