/** Surveys of meshes as a scanner leaves them: bumps, rounded edges, triangles of any shape; made by another kernel than ours. */
import { expect, test } from "vitest";
import { surveyedDesign } from "../../server/src/design/survey/surveyedDesign.js";
import { bumpy, drilled } from "../support/bumpy.js";
import { documentOf, fileOf } from "../support/designs.js";
import { type Body, implicitMesh } from "../support/implicitMesh.js";
import { predictionsOf } from "../support/surveyedSolids.js";
import { surveyOf, tubeOf, turned } from "../support/surveys.js";

/** The goals of issue 17: mm, mm and cents. */
const SIZE = 0.05;
const PLACE = 0.1;
const CENTS = 2;
const HOLES = [
  [70, 6],
  [92, 7],
  [112, 5],
] as const;
const FLUTE = `
borewright: 1
family: transverse
key: C6
air: { temperature: 22, humidity: 60 }
mouth: { hole: { diameter: 8 }, stopper: 12 }
bore: [{ at: -12, diameter: 11 }, { at: 140, diameter: 11 }]
wall: 3
holes: [${HOLES.map(([at, diameter], i) => `{ name: H${i}, at: ${at}, diameter: ${diameter} }`).join(", ")}]
fingerings: [${["●●●", "●●○", "●○○", "○○○"].map((holes) => `{ note: C6, holes: ${holes} }`).join(", ")}]
`;

test("a scanned side-blown flute with rings and a bead is read within the goals, its holes round and straight", () => {
  const disc = (z: number, at: number, half: number) => Math.abs(z - at) - half;
  const flute: Body = (x, y, z) => {
    const r = Math.hypot(x, y);
    const [ring, cap] = [Math.max(r - 10, disc(z, 45, 2)), Math.max(r - 9.5, disc(z, 132, 1.5))];
    const bead = Math.hypot(x, y + 8.5, z - 100) - 2;
    const outside = Math.min(Math.max(r - 8.5, -16 - z, z - 140), ring, cap, bead);
    const wood = Math.max(outside, Math.min(5.5 - r, 20), -16 - z, z - 140);
    const stopped = Math.min(wood, Math.max(r - 8.5, -16 - z, z + 12));
    return drilled(stopped, [x, y, z], [[0, 8], ...HOLES]);
  };
  const mesh = implicitMesh(bumpy(flute, 3), [-11, -11.5, -17.3], [11, 11, 141.3], [0.75, 0.75, 0.9]);
  const found = surveyOf(turned(mesh));
  const { mouth, holes, bore, foot } = tubeOf(found);
  if (mouth.kind !== "hole") throw new Error(mouth.kind);
  expect(Math.abs(mouth.length.mm - 8)).toBeLessThan(SIZE);
  expect(Math.abs((mouth.stopper?.mm ?? 0) - 12)).toBeLessThan(PLACE);
  expect(foot).toBe("open");
  expect(holes).toHaveLength(HOLES.length);
  for (const [i, [at, diameter]] of HOLES.entries()) {
    expect(Math.abs((holes[i]?.at?.mm ?? 0) - at)).toBeLessThan(PLACE);
    expect(Math.abs((holes[i]?.diameter.mm ?? 0) - diameter)).toBeLessThan(SIZE);
    expect(holes[i]).toMatchObject({
      length: undefined,
      undercut: undefined,
      raised: undefined,
      chimney: undefined,
      remark: undefined,
    });
  }
  expect(bore.length).toBeLessThan(5);
  for (const { diameter } of bore) expect(Math.abs(diameter.mm - 11)).toBeLessThan(SIZE);
  const source = predictionsOf(documentOf(fileOf(FLUTE)));
  const { analysis, text } = surveyedDesign(found, "Scanned", "mm");
  const low = analysis.fingerings.filter(({ fingering }) => fingering.register === 1);
  expect(low.length).toBeGreaterThan(3);
  for (const { fingering, predictedHz = 0 } of low)
    expect(Math.abs(1200 * Math.log2(predictedHz / (source.get(`${fingering.pattern} 1`) ?? 0)))).toBeLessThan(CENTS);
  expect(text).toMatch(/hole: \{ length: [78].*# ± 0\.0\d/);
});
