/** Small pieces of a refit, each by itself: dimensions moved twice, joints put back, room for drawing, cavities as they can be drawn. */
import { describe, expect, it } from "vitest";
import type { Limit } from "../../../server/src/design/constraints/limit.js";
import type { Unknown } from "../../../server/src/design/constraints/unknowns.js";
import { withRoom } from "../../../server/src/design/refit/bestFit.js";
import { drawnCavities } from "../../../server/src/design/refit/drawnCavity.js";
import { growthOf } from "../../../server/src/design/refit/growthOf.js";
import { withJointsBack } from "../../../server/src/design/refit/jointsBack.js";
import type { Inequality } from "../../../server/src/design/refit/quadraticProgram.js";
import { movesTogether } from "../../../server/src/design/refit/refitUntilStill.js";
import { documentOf, fileOf } from "../../support/designs.js";
import { vessel } from "../../support/families.js";
import { tube } from "../../support/marked.js";

it("dimensions moved once and again are told from where they were at first, and not at all where they are back", () => {
  const move = (hole: number, from: number, to: number) => ({ path: ["holes", hole, "at"], from, to });
  expect(
    movesTogether(
      [move(0, 100, 110), move(1, 200, 190), move(2, 300, 301)],
      [move(1, 190, 200), move(2, 301, 305), move(3, 7, 8)],
    ),
  ).toEqual([move(0, 100, 110), move(2, 300, 305), move(3, 7, 8)]);
});

describe("joints that nothing asked to move", () => {
  const unknowns = (["station-place", "station-radius", "station-place"] as const).map(
    (kind, i): Unknown => ({ kind, index: i < 2 ? 1 : 2, path: [] }),
  );
  const back = (limits: readonly Inequality[], staying: readonly number[] = [1, 2]) =>
    withJointsBack([195, 8, 310], {
      unknowns,
      present: [190, 9, 300],
      staying: new Set(staying),
      limitsAt: () => limits as readonly Limit[],
    });

  it("go back where they were, each as far as the limits let it, and nothing else does", () => {
    expect(back([])).toEqual([190, 8, 300]);
    expect(back([], [2])).toEqual([195, 8, 300]);
    expect(back([{ row: new Map([[0, 1]]), least: 192 }])).toEqual([195, 8, 300]);
  });
  it("may be in each other's way, and are tried in turn", () => {
    // No nearer than 110 to each other: the first can go back at once, the second only then.
    const apart = [
      {
        row: new Map([
          [2, 1],
          [0, -1],
        ]),
        least: 110,
      },
    ];
    expect(back(apart)).toEqual([190, 8, 300]);
    expect(back(apart, [2, 1])).toEqual([190, 8, 300]);
  });
});

it("a limit of several dimensions leaves room for half a step of each, one of a single dimension none", () => {
  const steps = [0.1, 0.2].map((step) => ({ step, offset: 0 }));
  const roomOf = (row: Map<number, number>) => withRoom({ row, least: 5 } as unknown as Limit, steps).least - 5;
  expect(
    roomOf(
      new Map([
        [0, 1],
        [1, -2],
      ]),
    ),
  ).toBeCloseTo(0.05 + 0.2, 9);
  expect(roomOf(new Map([[1, 2]]))).toBeCloseTo(-1e-6, 9);
});

describe("a cavity as it can be drawn", () => {
  const drawn = (shape: string, factor: number, print = "") =>
    drawnCavities(documentOf(fileOf(vessel(print, shape))), factor).map(({ values, size }) => ({
      ...Object.fromEntries(values.map(({ path, value }) => [path.join("."), Number(value.toFixed(6))])),
      size: Number(size.toFixed(6)),
    }));

  it("has the volume that is stated, grown by the cube of the size", () => {
    expect(drawn("volume: 100", 1.1)).toEqual([{ "vessel.volume": 133.1, size: 1.1 }]);
  });
  it("of one diameter is within a step, the nearest first", () => {
    const found = drawn("shape: sphere, diameter: 60", 1.0104);
    expect(found.map((each) => each["vessel.diameter" as keyof typeof each])).toEqual([60.6, 60.7, 60.5]);
    for (const each of found)
      expect(each.size).toBeCloseTo(Number(each["vessel.diameter" as keyof typeof each]) / 60, 6);
  });
  it("takes each dimension's share of the volume, and the nearest volume first", () => {
    const [first, ...others] = drawn("shape: ellipsoid, length: 100, width: 50, height: 40", 1.1);
    expect(first).toEqual({ "vessel.length": 110, "vessel.width": 55, "vessel.height": 44, size: 1.1 });
    expect(others).toHaveLength(26);
    const off = others.map(({ size }) => Math.abs(Math.log(size / 1.1)));
    expect(off).toEqual(off.toSorted((a, b) => a - b));
    for (const each of others as readonly Record<string, number>[]) {
      const volume = ["length", "width", "height"].reduce((all, name) => all * (each[`vessel.${name}`] ?? 0), 1);
      expect(each.size).toBeCloseTo((volume / 200_000) ** (1 / 3), 5);
    }
  });
  it("of one width is as high as wide, of a tube as round", () => {
    const [wide] = drawn("shape: ellipsoid, length: 100, width: 50", 1.2, "print: { rounding: 0.5 }\n").filter(
      (each) => Object.values(each).includes(60.5) && Object.values(each).includes(120),
    );
    expect(wide?.size).toBeCloseTo((1.2 * 1.21 ** 2) ** (1 / 3), 5);
    const [round] = drawn("shape: tube, length: 100, diameter: 50", 1.2, "print: { rounding: 0.5 }\n").filter(
      (each) => Object.values(each).includes(60.5) && Object.values(each).includes(120),
    );
    expect(round?.size).toBeCloseTo((1.2 * 1.21 ** 2) ** (1 / 3), 5);
  });
  it("is never drawn to nothing", () => {
    const found = drawn("shape: sphere, diameter: 60", 0.002, "print: { rounding: 0.5 }\n");
    for (const each of found) expect(each["vessel.diameter" as keyof typeof each]).toBeGreaterThan(0);
  });
});

it("the share of growth is what the design says, from nothing to all, else nothing", () => {
  const of = (said: string) => growthOf(documentOf(fileOf(tube(said))));
  expect(["", "0.75", "1", "0", "1.1", "-0.1"].map((said) => of(said && `refit: { growth: ${said} }`))).toEqual([
    0, 0.75, 1, 0, 0, 0,
  ]);
});
