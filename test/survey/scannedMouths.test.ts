/** Scanned whistles and vessels: sharp edges rounded, surfaces bumpy, sizes known. */
import { expect, test } from "vitest";
import { BUMPS, bumpy, drilled } from "../support/bumpy.js";
import { type Body, implicitMesh } from "../support/implicitMesh.js";
import { surveyOf, tubeOf, turned } from "../support/surveys.js";

/** The goal of issue 17, mm. */
const SIZE = 0.05;

/** A plug with a windway over it, a window 10 × 4.5 whose labium's edge is 0.3 mm thick in the middle, its ramp of 17°, two holes. */
const whistle: Body = (x, y, z) => {
  const r = Math.hypot(x, y);
  const [sin, cos] = [Math.sin((17 * Math.PI) / 180), Math.cos((17 * Math.PI) / 180)];
  const tube = Math.max(r - 11, 8 - r, -20 - z, z - 62);
  const block = Math.max(r - 9, -20 - z, z);
  const windway = Math.max(Math.abs(x) - 5, 7 - y, y - 8, z - 1);
  const behindEdge = Math.min(z - 4.5, (z - 4.5) * sin - (y - 8.3) * cos);
  const window = Math.max(Math.abs(x) - 5, -z, behindEdge, 7.5 - y);
  return drilled(
    Math.max(Math.min(tube, block), -windway, -window),
    [x, y, z],
    [
      [35, 7],
      [49, 6],
    ],
  );
};

test("a scanned whistle's rounded labium is told, and its sizes are as sure as they say", () => {
  const mesh = implicitMesh(bumpy(whistle, 3), [-12, -12, -21], [12, 12, 63], [0.75, 0.75, 0.9]);
  const found = surveyOf(turned(mesh));
  const { mouth } = tubeOf(found);
  if (mouth.kind !== "window") throw new Error(mouth.kind);
  const { width, cutUp } = mouth.window;
  const { length, height } = mouth.windway ?? {};
  for (const [size, mm] of [
    [width, 10],
    [cutUp, 4.5],
    [length, 20],
    [height, 1],
  ] as const)
    expect(Math.abs((size?.mm ?? 0) - mm)).toBeLessThanOrEqual(2 * (size?.plusMinus ?? 0));
  // What the ramp would add to a sharp edge is far more than the bumps leave open.
  expect(cutUp.plusMinus).toBeGreaterThan(4 * BUMPS);
  expect(found.notes.join()).toMatch(/labium's edge is rounded.*up to [01]\.\d mm nearer the windway/);
});

/** Half-axes of the chamber, and holes square to it: where each is sought from the middle, and its diameter. */
const AXES = [31, 22, 20] as const;
const [A, B, C] = AXES;
const HOLES = [
  [[-12, -6, 15], 4],
  [[-12, 6, 15], 5],
  [[4, 0, 20], 6],
  [[31, 0, 0], 9],
] as const;

/** Above 0 within the hole, mm, and far below on the other side of the vessel. */
function holeSquareTo([[x, y, z], diameter]: (typeof HOLES)[number]): Body {
  const far = Math.hypot(x / A, y / B, z / C);
  const [fx, fy, fz] = [x / far, y / far, z / far];
  const steep = Math.hypot(fx / A ** 2, fy / B ** 2, fz / C ** 2);
  const [nx, ny, nz] = [fx / A ** 2 / steep, fy / B ** 2 / steep, fz / C ** 2 / steep];
  return (px, py, pz) => {
    const along = (px - fx) * nx + (py - fy) * ny + (pz - fz) * nz;
    if (along < -8) return -9;
    return diameter / 2 - Math.sqrt(Math.max(0, (px - fx) ** 2 + (py - fy) ** 2 + (pz - fz) ** 2 - along ** 2));
  };
}

const holes = HOLES.map(holeSquareTo);
const skin = (grown: number): Body => {
  const [a, b, c] = [A + grown, B + grown, C + grown];
  return (x, y, z) => {
    const q = Math.hypot(x / a, y / b, z / c);
    return ((q - 1) * q) / Math.max(1e-9, Math.hypot(x / a ** 2, y / b ** 2, z / c ** 2));
  };
};
const [outside, inside] = [skin(3), skin(0)];
const vessel: Body = (x, y, z) =>
  holes.reduce((wood, hole) => Math.max(wood, hole(x, y, z)), Math.max(outside(x, y, z), -inside(x, y, z)));

test("a bumpy vessel, marched, is read within the goals, its holes as sure as they say", () => {
  const mesh = implicitMesh(bumpy(vessel, 5), [-36, -27, -25], [36, 27, 25], [1.2, 1.2, 1.2]);
  const { body } = surveyOf(turned(mesh));
  if (body.kind !== "vessel") throw new Error(body.kind);
  const axes = (body.axes ?? []).map(({ mm }) => mm).sort((a, b) => b - a);
  for (const [i, half] of AXES.entries()) expect(Math.abs((axes[i] ?? 0) - 2 * half)).toBeLessThan(SIZE);
  expect(Math.abs(body.wall.mm - 3)).toBeLessThan(SIZE);
  // The widest is blown.
  const read = body.holes.map(({ diameter }) => diameter).sort((a, b) => a.mm - b.mm);
  expect(read).toHaveLength(3);
  for (const [i, { mm, plusMinus }] of read.entries()) {
    expect(Math.abs(mm - (HOLES[i]?.[1] ?? 0))).toBeLessThanOrEqual(2 * plusMinus);
    expect(plusMinus).toBeLessThan(2 * BUMPS);
  }
});
