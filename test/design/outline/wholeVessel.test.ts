/**
 * Every size of a vessel's outline where the design says only what sounds. Sizes that it does not say are those of SOLID_DEFAULTS, common
 * practice, no source; what follows from them is worked out beside them.
 */
import { describe, expect, it } from "vitest";
import { outlineOf } from "../../../server/src/design/outline/index.js";
import type { Outline, TubeOutline, VesselOutline } from "../../../server/src/design/outline/outline.js";
import { vesselMouthSides } from "../../../server/src/design/outline/vesselMouth.js";
import { documentOf, fileOf } from "../../support/designs.js";
import { vessel } from "../../support/families.js";

function outline(text: string): Outline {
  const found = outlineOf(documentOf(fileOf(text)).resolution);
  if (found === undefined) throw new Error("no outline");
  return found;
}
const tubeOf = (text: string) => outline(text).body as TubeOutline;
const vesselOf = (text: string) => outline(text).body as VesselOutline;
/** To a millionth of a millimetre. */
const rounded = <T>(value: T): T =>
  JSON.parse(JSON.stringify(value), (_, each) => (typeof each === "number" ? Number(each.toFixed(6)) : each));

const TAN_17 = Math.tan((17 * Math.PI) / 180);

describe("a vessel", () => {
  it("has its holes off the plane of the mouth where they are drawn so", () => {
    const { holes, split, mouth } = vesselOf(
      vessel("holes:\n  - { diameter: 6, length: 8, angle: 60 }\n  - { diameter: 5, angle: -100, elevation: 20 }"),
    );
    const [flat, raised] = holes;
    expect(flat).toMatchObject({ name: "hole 1", path: ["holes", 0], width: 6, length: 8, chimney: 4, angle: 60 });
    expect(flat).toMatchObject({ elevation: 0, aside: 0, normalAside: 0 });
    expect(raised).toMatchObject({ angle: -100, elevation: 20, width: 5, length: 5 });
    // On the ellipsoid of 30, 22.5 and 45, along its normal; the windway comes from +y, and elevations count toward the other side.
    const [x, z] = raised?.point ?? [0, 0];
    const y = raised?.aside ?? 0;
    expect(y).toBeLessThan(0);
    expect((x / 30) ** 2 + (y / 22.5) ** 2 + (z / 45) ** 2).toBeCloseTo(1, 9);
    const [nx, nz] = raised?.normal ?? [0, 0];
    const scale = nx / (x / 900);
    expect(nz).toBeCloseTo((scale * z) / 2025, 9);
    expect(raised?.normalAside).toBeCloseTo((scale * y) / 506.25, 9);
    expect(Math.hypot(nx, nz, raised?.normalAside ?? 0)).toBeCloseTo(1, 9);
    // The widest room below the middle is from near the pole, 0.85 of 45, to hole 2, half its 5 and half the lip of 3 below it and the lip.
    expect(split?.lip).toBe(3);
    expect(split?.at).toBeCloseTo((-38.25 + (z - 4)) / 2, 0);
    expect(rounded(mouth)).toEqual({
      kind: "duct",
      window: { width: 9, length: 5, chimney: 4, from: -2.5, to: 2.5, stopper: 0 },
      windway: {
        from: -27.5,
        to: -2.5,
        width: 9,
        entryWidth: 10.8,
        exitHeight: 1.2,
        entryHeight: 1.6,
        floor: 46.2,
        chamfer: 0.4,
      },
      labium: { at: 2.5, low: 46.45, high: 46.95, ramp: 17, relief: 35 },
      cheek: 2.4,
    });
  });

  it("has the sides of its mouth where windway, wall and slopes put them", () => {
    const found = vesselOf(vessel(""));
    if (found.mouth.kind !== "duct") throw new Error("no duct");
    const sides = vesselMouthSides(found.mouth, found);
    const end = 2.5 + (49 - 46.95) / TAN_17;
    expect(rounded(sides)).toEqual(
      rounded({
        entry: 27.5,
        exit: 2.5,
        roof: 49.4, // floor, 1.6 of windway and as much of wood
        under: 44.6, // 1.6 under the floor
        rim: 49,
        padEnd: [-end, 49],
        padFoot: [-end - 6, 39], // 2 inside the shell
      }),
    );
    const [relief, low, high, ramp] = sides.labium();
    expect([low, high, ramp]).toEqual([
      [-2.5, 46.45],
      [-2.5, 46.95],
      [-end, 49],
    ]);
    // The underside is as flat as whole degrees from 35 get it clear of the shell over the window's width of 9, and ends 0.3 mm inside.
    const [y = 0, z = 0] = relief ?? [];
    const angle = (Math.atan((46.45 - z) / (-y - 2.5)) * 180) / Math.PI;
    expect(angle).toBeCloseTo(Math.round(angle), 9);
    const outside = (degrees: number, height: number) => {
      const across = 2.5 + (46.45 - height) / Math.tan((degrees * Math.PI) / 180);
      return (4.5 / 30) ** 2 + (across / 22.5) ** 2 + (height / 45) ** 2 >= 1;
    };
    const depths = Array.from({ length: 900 }, (_, i) => 45 - i * 0.05);
    const clear = Array.from({ length: 26 }, (_, i) => 35 + i).find(
      (degrees) => !depths.every((each) => outside(degrees, each)),
    );
    expect(Math.round(angle)).toBe(clear);
    expect([outside(angle, z + 0.3), outside(angle, z + 0.36)]).toEqual([false, true]);
    expect(rounded(sides.labium(60).at(-1))).toEqual(rounded([-2.5 - (60 - 46.95) / TAN_17, 60]));
  });

  it("in a thin wall has its windway's floor no higher than the wall, and cheeks as thick as the printer closes", () => {
    expect(vesselOf(vessel("wall: 1")).mouth).toMatchObject({ windway: { floor: 46 } });
    expect(vesselOf(vessel("print: { leastWall: 3 }")).mouth).toMatchObject({ cheek: 3 });
  });

  it("blown across a hole has that, and in the shape of a tube the body's own end closes it", () => {
    const across = (shape?: string) =>
      vessel("holes:\n  - { diameter: 5, at: 30 }", shape).replace(
        "window: { width: 9, cutUp: 5 }",
        "hole: { length: 12, width: 10 }",
      );
    expect(vesselOf(across()).mouth).toEqual({ kind: "embouchure", width: 10, length: 12, chimney: 4 });
    const { mouth, from, to, bore, holes } = tubeOf(across("shape: tube, length: 90, diameter: 40"));
    expect(mouth).toEqual({
      kind: "embouchure",
      width: 10,
      length: 12,
      chimney: 4,
      undercut: 0,
      boreRadius: 20,
      closedAt: -6,
    });
    expect([from, to]).toEqual([-10, 88]);
    // No stopper is assumed there.
    expect(outline(across("shape: tube, length: 90, diameter: 40")).assumed).toEqual([]);
    expect(bore).toEqual([-6, 84].map((at) => ({ path: ["vessel", "length"], at, diameter: 40 })));
    expect(holes.map(({ at }) => at)).toEqual([30]);
  });

  it("in the shape of a tube with its mouth at the side is half as long on either side of it, its window not drawn yet", () => {
    const { mouth, bore, from, to } = tubeOf(vessel("", "shape: tube, length: 90, diameter: 40, mouthAt: side"));
    expect(mouth).toBeUndefined();
    expect(bore.map(({ at }) => at)).toEqual([-45, 45]);
    expect([from, to]).toEqual([-45, 49]);
  });

  it("is told to be made as another shape where it is treated as that", () => {
    expect(outline(vessel("", "shape: box, length: 90, width: 60, height: 45")).assumed).toContain(
      "Made as the ellipsoid that the box is treated as",
    );
    expect(outline(vessel("", "volume: 100")).assumed).toContain("Made as the sphere that the volume is treated as");
    expect(outline(vessel("")).assumed.join()).not.toContain("treated");
  });
});
