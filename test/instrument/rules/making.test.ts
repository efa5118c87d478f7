/** The rules of hands and printer on sound drawings, whatever limits they are given. */
import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { readDesign } from "../../../server/src/document/read.js";

const odd = fc.constantFrom<unknown>(0, -1, 1e300, 1e-300, "x", null, true, "=L1.at", "=1e200*1e200", [], {});
const limit = fc.oneof(
  { weight: 5, arbitrary: fc.double({ min: 0.1, max: 300, noNaN: true }) },
  { weight: 1, arbitrary: odd },
);
const optional = <T>(model: { [K in keyof T]: fc.Arbitrary<T[K]> }) => fc.record(model, { requiredKeys: [] });
const inside = (min: number, max: number) => fc.double({ min, max, noNaN: true });

const holes = fc
  .array(fc.record({ gap: inside(9, 90), diameter: inside(2, 15), angle: fc.constantFrom(0, 30, 90, 180) }), {
    maxLength: 7,
  })
  .map((made) =>
    made.map(({ diameter, angle }, i) => ({
      name: `${["L", "R", "T"][i % 3]}${i}`,
      at: made.slice(0, i + 1).reduce((at, { gap }) => at + gap, 10),
      diameter,
      angle,
    })),
  );
const printed = optional({
  bed: fc.oneof(fc.tuple(limit, limit, limit), limit),
  nozzle: limit,
  lineWidth: limit,
  leastWall: limit,
  holeGap: limit,
  jointClearance: limit,
  scale: fc.oneof(inside(50, 200), odd),
  shrinkage: fc.oneof(inside(0, 2), odd),
  holeUndersize: fc.oneof(inside(0, 0.3), odd),
});
const hands = optional({ reach: limit, thumb: limit, fingertip: limit });
const vessel = fc.record({
  shape: fc.constantFrom("sphere", "ellipsoid", "tube", "box"),
  length: inside(60, 400),
  width: inside(40, 200),
  diameter: inside(40, 200),
});
const FAMILY = {
  duct: { mouth: { window: { width: 9, cutUp: 4 }, windway: { length: 30 } } },
  transverse: { mouth: { hole: { length: 10, width: 9 }, stopper: 17 } },
  rim: { mouth: { cover: 0.5 } },
  vessel: { mouth: { window: { width: 9, cutUp: 4 } } },
  panpipe: { mouth: { cover: 0.5 } },
} as const;

const design = fc
  .record({
    family: fc.constantFrom<keyof typeof FAMILY>("duct", "transverse", "rim", "vessel", "panpipe"),
    units: fc.constantFrom("mm", "in"),
    wall: inside(0.5, 5),
    joints: fc.array(inside(-30, 700), { maxLength: 3 }),
    holes,
    vessel,
    pipe: inside(40, 500),
    hands,
    print: printed,
  })
  .map(({ family, joints, holes, vessel, pipe, ...rest }) => {
    const foot = 60 + (holes.at(-1)?.at ?? 300);
    const stations = [-17, 0, ...joints.filter((at) => at < foot), foot].sort((a, b) => a - b);
    const tube = { bore: stations.map((at) => ({ at, diameter: 16, joint: joints.includes(at) })), holes };
    const body =
      family === "vessel"
        ? { vessel, holes }
        : family === "panpipe"
          ? { pipes: [{ note: "C5", length: pipe, diameter: 12 }] }
          : tube;
    return { borewright: 1, family, ...FAMILY[family], ...body, ...rest };
  });

const CODES = [
  "hands/out-of-reach",
  "hands/thumb-out-of-reach",
  "hands/hole-too-wide",
  "hole/too-near",
  "hole/near-joint",
  "print/wall-too-thin",
  "print/wall-lines",
  "print/scale-leaves-lines",
  "print/longer-than-bed",
];

describe("the rules of hands and printer", () => {
  it("report no number that is not finite, and nothing more severe than a warning, whatever the limits", () => {
    const told = new Set<string>();
    fc.assert(
      fc.property(design, (data) => {
        const [document] = readDesign(JSON.stringify(data), "json").documents;
        for (const { code, message, severity } of document?.findings ?? []) {
          if (!CODES.includes(code)) continue;
          told.add(code);
          expect(message).not.toMatch(/NaN|Infinity|undefined/);
          expect(["warning", "information"]).toContain(severity);
        }
      }),
      { seed: 11, numRuns: 500 },
    );
    expect([...told].sort()).toEqual([...CODES].sort());
  });
});
