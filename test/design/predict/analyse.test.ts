/** The main job through the public face: a design as text, what it plays as numbers. */
import { describe, expect, it } from "vitest";
import { centsAbove } from "../../../server/src/music/cents.js";
import reference from "../../reference/fem-open.json" with { type: "json" };
import { checked, WHISTLE } from "../../support/designs.js";

/** A tube of the finite-element reference, written as a maker would, on an ideal mouth in lossless air. */
function asDesign(tube: (typeof reference.tubes)[number]): string {
  const holes = tube.holes.map(({ at, diameter, side }) => `  - { at: ${at}, diameter: ${diameter}, side: ${side} }`);
  const fingerings = tube.fingerings.map(({ closed }) => {
    const shut: readonly number[] = closed;
    const pattern = tube.holes.map((_, i) => (shut.includes(i) ? "●" : "○")).join("");
    return `  - { note: A4, holes: "${pattern}" }`;
  });
  return [
    "borewright: 1",
    "family: rim",
    "key: A4",
    "air: { losses: false, speedOfSound: 343.37 }",
    "mouth: ideal",
    "bore:",
    ...tube.bore.map(([at, diameter]) => `  - { at: ${at}, diameter: ${diameter} }`),
    `wall: ${tube.wall}`,
    ...(holes.length > 0 ? ["holes:", ...holes] : []),
    "fingerings:",
    ...fingerings,
    "",
  ].join("\n");
}

describe("a design as text plays what three-dimensional finite elements say (test/reference)", () => {
  const withHoles = reference.tubes.filter(({ holes }) => holes.length > 0);

  it.each(withHoles.map((tube) => [tube.name, tube] as const))("%s, every fingering's first register", (name, tube) => {
    // The reference's own statement: 1 cent is left where a thumb hole lies opposite a finger hole.
    const limit = /N3|N6/.test(name) ? 1.1 : 0.6;
    const { analysis } = checked(asDesign(tube));
    tube.fingerings.forEach(({ hz }, i) => {
      const cents = centsAbove(analysis.fingerings[i]?.predictedHz ?? Number.NaN, hz[0] ?? Number.NaN);
      expect(Math.abs(cents)).toBeLessThan(limit);
    });
  });
});

describe("an analysis", () => {
  it("gives target, prediction and deviation of every fingering, in the order of the file", () => {
    const { analysis } = checked(WHISTLE);
    expect(analysis.fingerings.map(({ fingering }) => fingering.target?.name)).toEqual([
      "G4",
      "A4",
      "B4",
      "C5",
      "D5",
      "E5",
      "G5",
    ]);
    for (const { targetHz = Number.NaN, predictedHz = Number.NaN, cents = Number.NaN } of analysis.fingerings) {
      expect(centsAbove(predictedHz, targetHz)).toBeCloseTo(cents, 9);
      expect(Math.abs(cents)).toBeLessThan(40);
    }
  });

  it("takes temperature and tolerance from the design before the settings", () => {
    const settings = { tolerance: 3, temperature: 30 };
    expect(checked(WHISTLE, "yaml", settings).analysis).toMatchObject({ tolerance: 10, temperature: 22 });
    const silent = WHISTLE.replace("tolerance: 10\n", "").replace(/air: .*\n/, "");
    expect(checked(silent, "yaml", settings).analysis).toMatchObject({ tolerance: 3, temperature: 30 });
  });

  it("plays higher in warmer air, about 3 cents a degree (the square-root law gives 2.9 at 22 °C)", () => {
    const silent = WHISTLE.replace(/air: .*\n/, "");
    const at = (temperature: number) =>
      checked(silent, "yaml", { tolerance: 10, temperature }).analysis.fingerings[0]?.predictedHz ?? Number.NaN;
    const slope = centsAbove(at(23), at(22));
    expect(slope).toBeGreaterThan(2.7);
    expect(slope).toBeLessThan(3.4);
  });

  it("keeps targets and says nothing about pitch while the bore is not known", () => {
    const { analysis } = checked(WHISTLE.replace("at: 394.1", "at: "));
    expect(analysis.fingerings[0]).toMatchObject({ predictedHz: undefined, cents: undefined });
    expect(analysis.fingerings[0]?.targetHz).toBeCloseTo(391.995, 2);
    expect(analysis.summary).toBeUndefined();
  });

  it("keeps the other fingerings when one cannot be read", () => {
    const { analysis } = checked(WHISTLE.replace("{ degree: 2, holes: ●●●●●○ }", "{ degree: 2, holes: ●●●zz }"));
    expect(analysis.fingerings[1]?.predictedHz).toBeUndefined();
    expect(analysis.fingerings[2]?.cents).toBeDefined();
  });
});
