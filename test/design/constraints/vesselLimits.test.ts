/** What binds a vessel in a refit: its holes' widths, the wall between them and its bed; bounds are worked out by hand, shares are those of `checkedRanges.ts`. */
import { describe, expect, it } from "vitest";
import { constraintsOf } from "../../../server/src/design/constraints/constraints.js";
import { vesselHoleLimits } from "../../../server/src/design/constraints/vesselLimits.js";
import { vesselShapeLimits } from "../../../server/src/design/constraints/vesselShapeLimits.js";
import { analyse } from "../../../server/src/design/predict/analyse.js";
import { roundShape } from "../../../server/src/instrument/body.js";
import { documentOf, fileOf } from "../../support/designs.js";

/** What binds a vessel's hole, and the vessel: least or greatest, mm, with the words. */
function toldOfVessel(text: string): readonly string[] {
  const document = documentOf(fileOf(text));
  const { instrument } = document.resolution;
  const shape = roundShape(instrument.body);
  if (shape === undefined) throw new Error("no vessel");
  const constraints = constraintsOf(document);
  const widths = [
    ...vesselHoleLimits(instrument, constraints, 0, "A"),
    ...vesselHoleLimits(instrument, constraints, 1, "B", "beyond"),
  ];
  const said = ({ limit, message, advice }: { limit: number; message: string; advice: string }) =>
    `${Number(limit.toPrecision(3))}: ${message}; ${advice}`;
  return [
    ...widths.map((each) => `${each.kind} ${said(each)}`),
    ...vesselShapeLimits(shape, constraints, analyse(instrument)).map(
      (each) => `${said(each)} (${Number(each.bySize.toPrecision(3))}, ${Number(each.least.toPrecision(3))})`,
    ),
  ];
}

describe("the limits of a vessel", () => {
  const text = (unit: number) => {
    const mm = (size: number) => Number((size / unit).toPrecision(12));
    return `borewright: 1
family: vessel
units: ${unit === 1 ? "mm" : "in"}
key: C5
mouth: { window: { width: ${mm(9)}, cutUp: ${mm(5)} } }
vessel: { shape: sphere, diameter: ${mm(60)} }
wall: ${mm(4)}
holes:
  - { name: A, angle: 90, diameter: ${mm(6)} }
  - { name: B, angle: 180, diameter: ${mm(8)}, limits: { diameter: [${mm(5)}, ${mm(10)}] } }
print: { bed: [${mm(90)}, ${mm(90)}, ${mm(80)}] }
`;
  };
  const far = "give them places farther apart (`angle`, `elevation`)";
  const wide = "allow a wider hole (hands.fingertip, limits.diameter)";
  const chamber = "give the chamber a thinner wall or a shorter hole (chimney)";
  const narrow = "accept a narrower hole (limits.diameter)";
  it.each([
    [1, ["2 mm", "12 mm", "14.4 mm", "5 mm", "10 mm", "24 mm", "1.6 mm", "80 mm"]],
    [25.4, ["0.08 in", "0.47 in", "0.57 in", "0.2 in", "0.39 in", "0.94 in", "0.06 in", "3.15 in"]],
  ] as const)(
    "say what binds its holes and its size, in units of %f mm",
    (unit, [two, tip, quarter, five, ten, far4, gap, bed]) => {
      expect(toldOfVessel(text(unit))).toEqual([
        `least 2: A would have to be narrower than ${two}; ${narrow}`,
        `most 12: A would have to be wider than ${tip}, the most that a fingertip covers or its limits allow; ${wide}`,
        // 0.24 and 0.4 of the chamber's half axis, on the diameter.
        `most 14.4: A would have to be wider than ${quarter} in this chamber, beyond what the prediction was checked for; ${chamber}`,
        `least 5: B would have to be narrower than ${five}; ${narrow}`,
        `most 10: B would have to be wider than ${ten}, the most that a fingertip covers or its limits allow; ${wide}`,
        `most 24: B would have to be wider than ${far4} in this chamber, beyond which no prediction holds; ${chamber}`,
        // A quarter of the way round a sphere of 60 mm is 42.4 mm straight; half of the window is 4.5 mm.
        `1.6: A and the mouth would have less than ${gap} of wall between them; ${far} (42.4, 6.1)`,
        `1.6: B and the mouth would have less than ${gap} of wall between them; ${far} (60, 6.1)`,
        `1.6: B and A would have less than ${gap} of wall between them; ${far} (42.4, 1.6)`,
        // 80 mm less two walls are 72, where it is 60 as drawn.
        `80: the vessel would have to be longer than ${bed} outside, the most that the bed takes; state a larger bed (print.bed) (-60, -72)`,
      ]);
    },
  );

  it("let a hole stay as narrow, or as wide for an unstated fingertip, as it is drawn", () => {
    const drawn = text(1)
      .replace("diameter: 6 }", "diameter: 1.5 }")
      .replace(/diameter: 8, .*/, "diameter: 14 }");
    const widths = (design: string) => toldOfVessel(design).map((said) => /^(least|most) [\d.]+/.exec(said)?.[0]);
    expect(widths(drawn)[0]).toBe("least 1.5");
    expect(widths(drawn)[4]).toBe("most 14");
    expect(widths(`${drawn}hands: { fingertip: 13 }\n`)[4]).toBe("most 13");
  });

  it("are its bed's, by the longest of its sizes with both walls", () => {
    const long = text(1)
      .replace("shape: sphere, diameter: 60", "shape: ellipsoid, length: 80, width: 50, height: 40")
      .replace("[90, 90, 80]", "[100, 100, 100]");
    // Turned in the bed's diagonal it is longer than its sides: the greatest block of these sizes that lies in 100 by 100.
    const said = toldOfVessel(long).at(-1) ?? "";
    const [, outside] = /longer than ([\d.]+) mm outside, the most that the bed takes/.exec(said) ?? [];
    const [, least] = /\(-80, -([\d.]+)\)$/.exec(said) ?? [];
    expect(Number(outside)).toBeGreaterThanOrEqual(99.9);
    expect(Number(outside)).toBeCloseTo(Number(least) + 8, 0);
  });

  it.each([
    ["that it does not fit as drawn, which is told already", 60],
    ["that would take it many times as large", 2000],
  ])("are not those of a bed %s", (_, bed) => {
    const said = toldOfVessel(text(1).replace("[90, 90, 80]", `[${bed}, ${bed}, ${bed}]`));
    expect(said.at(-1)).toMatch(/B and A would have less than/);
  });
});
