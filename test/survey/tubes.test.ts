/** Surveys of tubes whose sizes are known: of our own solids, harmed and moved as shared models are, and of a mesh made another way. */
import { readFileSync } from "node:fs";
import { describe, expect, test } from "vitest";
import { analyse } from "../../server/src/design/predict/analyse.js";
import { surveyedDesign } from "../../server/src/design/survey/surveyedDesign.js";
import { readMesh } from "../../server/src/survey/file/readMesh.js";
import { randomNumbers } from "../../server/src/survey/mesh/statistics.js";
import { survey } from "../../server/src/survey/survey.js";
import type { Length, SurveyedTube } from "../../server/src/survey/surveyed.js";
import { documentOf, fileOf } from "../support/designs.js";
import { implicitMesh } from "../support/implicitMesh.js";
import { predictionsOf, solid3mf } from "../support/surveyedSolids.js";
import {
  bent,
  laidOut,
  mirrored,
  moved,
  noisy,
  scaled,
  surveyOf,
  tubeOf,
  turned,
  turnedFaces,
  withoutFaces,
} from "../support/surveys.js";

/** The goals of issue 17: mm, mm and cents. */
const SIZE = 0.05;
const PLACE = 0.1;
const CENTS = 2;

const WHISTLE = readFileSync("examples/quay-whistle.bore.yaml", "utf8").replace(/^print:.*$/m, "");

/** Place and diameter of each hole; the foot's place, and the diameter of the bore's ends. */
function near(
  tube: SurveyedTube,
  holes: readonly (readonly [number, number])[],
  bore: readonly [number, number, number],
) {
  expect(tube.holes).toHaveLength(holes.length);
  for (const [i, [at, diameter]] of holes.entries()) {
    expect(Math.abs((tube.holes[i]?.at?.mm ?? 0) - at)).toBeLessThan(PLACE);
    expect(Math.abs((tube.holes[i]?.diameter.mm ?? 0) - diameter)).toBeLessThan(SIZE);
    expect(holds(tube.holes[i]?.diameter, diameter)).toBe(true);
  }
  const [to, upper, lower] = bore;
  expect(Math.abs((tube.bore.at(-1)?.at.mm ?? 0) - to)).toBeLessThan(PLACE);
  expect(Math.abs((tube.bore[0]?.diameter.mm ?? 0) - upper)).toBeLessThan(SIZE);
  expect(Math.abs((tube.bore.at(-1)?.diameter.mm ?? 0) - lower)).toBeLessThan(SIZE);
}

/** Whether twice the uncertainty reaches to the value. */
function holds(length: Length | undefined, mm: number): boolean {
  return length !== undefined && Math.abs(length.mm - mm) <= 2 * length.plusMinus;
}

const QUAY = [
  [173.3, 7],
  [205.3, 8.5],
  [229.8, 7],
  [270.8, 7],
  [289.6, 8.5],
  [321.4, 6.5],
] as const;

describe("a whistle", () => {
  test("is read from our own 3MF with the sizes drawn, and the design can be used at once", async () => {
    const found = survey(readMesh(await solid3mf(WHISTLE), "whistle.3mf"));
    const { text, analysis } = surveyedDesign(found, "Found whistle", "mm");
    expect(
      text.split("\n").filter((line) => /^(family|key|wall|foot|units)|window:|at:|degree: (1|7|13),/.test(line)),
    ).toEqual([
      "family: duct",
      "key: G4   # the note nearest to the prediction with every hole closed; cannot be seen",
      "  window: { width: 8.9, cutUp: 4.3 }   # ± 0.005",
      "  - { at: 0, diameter: 16 }   # at ± 0.005; diameter ± 0.013",
      "  - { at: 394.6, diameter: 16 }   # at ± 0.005; diameter ± 0.013",
      "wall: 3   # ± 0.005",
      "foot: open",
      ...QUAY.map(([at, diameter], i) =>
        expect.stringMatching(
          `^  - { name: H${i + 1}, at: ${at}, diameter: ${diameter} }   # at ± 0.005; diameter ± 0.0`,
        ),
      ),
      "  - { degree: 1, holes: ●●●●●● }",
      "  - { degree: 7, holes: ○○○○○○ }",
      "  - { degree: 13, holes: ●○○○○○, register: 2 }",
    ]);
    expect(documentOf(fileOf(text)).findings.filter(({ severity }) => severity !== "information")).toEqual([]);
    const source = predictionsOf(documentOf(fileOf(WHISTLE)));
    for (const { fingering, predictedHz = 0 } of analysis.fingerings) {
      const hz = source.get(`${fingering.pattern} ${fingering.register}`) ?? 0;
      expect(Math.abs(1200 * Math.log2(predictedHz / hz))).toBeLessThan(0.1);
    }
    expect(text).toContain("respect its licence");
  });

  let made: ReturnType<typeof laidOut> | undefined;
  const bodyOf = async () => {
    made ??= laidOut(WHISTLE);
    return (await made)[0] ?? new Float64Array();
  };

  test("is found slanted, far away, in inches and inside out", async () => {
    const body = await bodyOf();
    const found = surveyOf(turnedFaces(scaled(moved(turned(body), [300, -200, 50]), 1 / 25.4), () => true));
    near(tubeOf(found), QUAY, [394.6, 16, 16]);
    expect(found.unit).toEqual({ name: "in", isStated: false });
    expect(found.notes.join()).toMatch(/turned inside out.*states no unit/);
  });

  test("is found despite noise, missing or flipped faces, and mirrored", async () => {
    const random = randomNumbers(5);
    const body = await bodyOf();
    const harmed = noisy(
      withoutFaces(mirrored(turned(body)), () => random() < 0.01),
      0.02,
      random,
    );
    const found = surveyOf(turnedFaces(harmed, () => random() < 0.3));
    near(tubeOf(found), QUAY, [394.6, 16, 16]);
    expect(found.notes.join()).toMatch(/faces looked the wrong way.*not closed/);
    const source = predictionsOf(documentOf(fileOf(WHISTLE)));
    for (const { fingering, predictedHz = 0 } of surveyedDesign(found, "x", "mm").analysis.fingerings) {
      const hz = source.get(`${fingering.pattern} ${fingering.register}`) ?? 0;
      expect(Math.abs(1200 * Math.log2(predictedHz / hz))).toBeLessThan(CENTS);
    }
  });
});

test("parts that lie on the bed are put together, and every feature of a hole is read", async () => {
  const parts = await laidOut(`
borewright: 1
family: transverse
key: D4
mouth: { hole: { length: 10, width: 12, chimney: 6, undercut: 1.2 }, stopper: 17 }
bore: [{ at: -17, diameter: 18 }, { at: 100, diameter: 18 }, { at: 180, diameter: 18, joint: true }, { at: 420, diameter: 14 }]
wall: 3.5
holes:
  - { name: A, at: 220, diameter: 6, length: 9, undercut: 1, raised: 2.5 }
  - { name: B, at: 250, diameter: 7, angle: 40 }
  - { name: C, at: 280, diameter: 5, undercut: 0.8 }
  - { name: D, at: 310, diameter: 8, side: back }
  - { name: E, at: 340, diameter: 7.5, chimney: 3 }
fingerings: [{ degree: 1, holes: xxxxx }]
`);
  // Slanted, so that their boxes overlap.
  const found = surveyOf(...parts.map((part) => turned(part)));
  const tube = tubeOf(found);
  const { mouth, holes, bore } = tube;
  if (mouth.kind !== "hole") throw new Error(mouth.kind);
  expect([mouth.length.mm, mouth.width.mm, mouth.chimney?.mm]).toEqual(
    [10, 12, 6].map((each) => expect.closeTo(each, 1.5)),
  );
  expect(mouth.length.mm).toBeCloseTo(10, 2);
  expect(mouth.undercut?.mm).toBeCloseTo(1.2, 1);
  expect(surveyedDesign(found, "x", "mm").text).toMatch(
    /hole: \{ length: 10, width: 12, chimney: 6, undercut: 1\.2\d? \}/,
  );
  near(
    tube,
    [
      [220, 6],
      [250, 7],
      [280, 5],
      [310, 8],
      [340, 7.5],
    ],
    [420, 18, 14],
  );
  expect(bore.map(({ at, joint }) => [Math.round(at.mm), joint])).toEqual([
    [-18, false],
    [180, true],
    [420, false],
  ]);
  const [a, b, c, d, e] = holes;
  expect(a?.length?.mm).toBeCloseTo(9, 1);
  expect([a?.undercut?.mm, a?.raised?.mm]).toEqual([expect.closeTo(1, 1), expect.closeTo(2.5, 1)]);
  expect([b?.angle.degrees, d?.angle.degrees].map((angle) => Math.abs(angle ?? 0))).toEqual([
    expect.closeTo(40, 1),
    expect.closeTo(180, 0),
  ]);
  expect(c?.undercut?.mm).toBeCloseTo(0.8, 1);
  expect(e?.chimney?.mm).toBeCloseTo(3, 1);
  expect(found.questions.join()).toContain("stopper's face");
});

test("a two-chamber flute's plug that lies beside it is set where the chamber's exit ends", async () => {
  const text = readFileSync("examples/harbour-mist-flute.bore.yaml", "utf8").replace(/^print:.*$/m, "");
  const found = surveyOf(...(await laidOut(text)).map((part) => turned(part)));
  const { mouth } = tubeOf(found);
  if (mouth.kind !== "window") throw new Error(mouth.kind);
  const { window, windway, chamber, isTwoChamber } = mouth;
  expect(isTwoChamber).toBe(true);
  expect([window.width.mm, window.cutUp.mm, window.stopper?.mm]).toEqual(
    [9.9, 5.1, 3].map((mm) => expect.closeTo(mm, 2)),
  );
  expect([windway?.length.mm, windway?.height.mm]).toEqual([22, 1.1].map((mm) => expect.closeTo(mm, 1)));
  expect([chamber?.length.mm, chamber?.diameter.mm]).toEqual([75, 19].map((mm) => expect.closeTo(mm, 0)));
  expect(found.notes.join()).toContain("its face lies 3.00 mm above the window");
});

test("an end-blown flute's notch is read, however the model is oriented", async () => {
  const text = readFileSync("examples/pier-notch-flute.bore.json", "utf8").replace(', "joint": true', "");
  const [body = new Float64Array()] = await laidOut(text, "a.bore.json");
  const { mouth, holes } = tubeOf(surveyOf(turned(body)));
  if (mouth.kind !== "rim") throw new Error(mouth.kind);
  expect([mouth.notch?.depth.mm, mouth.notch?.width.mm]).toEqual([expect.closeTo(4.5, 2), expect.closeTo(8.5, 2)]);
  expect(holes.map(({ angle }) => Math.round(angle.degrees))).toEqual([180, 0, 0, 0, 0, 0]);
});

const ROW = `
borewright: 1
family: panpipe
key: G4
air: { temperature: 22, humidity: 60 }
wall: 2
pipes: [{ note: G4, length: 208.5, diameter: 15 }, { note: B4, length: 163.6, diameter: 15 }, { note: D5, length: 137.8, diameter: 12 }]
`;

test("a pan pipe is read with the stoppers that lie beside it, and a row without them is asked about", async () => {
  const [row = new Float64Array(), ...stoppers] = await laidOut(ROW);
  const pipesOf = (found: ReturnType<typeof surveyOf>) => (found.body.kind === "pipes" ? found.body.pipes : []);
  const found = surveyOf(turned(row), ...stoppers.map((each) => moved(each, [500, 0, 0])));
  expect(pipesOf(found).map(({ length, diameter }) => [length.mm, diameter.mm])).toEqual([
    [expect.closeTo(208.5, 1), expect.closeTo(15, 1)],
    [expect.closeTo(163.6, 1), expect.closeTo(15, 1)],
    [expect.closeTo(137.8, 1), expect.closeTo(12, 1)],
  ]);
  const { text, analysis } = surveyedDesign(found, "Row", "mm");
  const drawn = analyse(documentOf(fileOf(ROW)).resolution.instrument).fingerings;
  for (const [i, { predictedHz = 0 }] of analysis.fingerings.entries())
    expect(Math.abs(1200 * Math.log2(predictedHz / (drawn[i]?.predictedHz ?? 0)))).toBeLessThan(CENTS);
  expect(text).toMatch(/note: G4, length: 208\.5, diameter: 15 }.*\n.*note: B4.*\n.*note: D5/);
  const bare = surveyOf(row);
  // Ten millimetres of stopper longer.
  expect(pipesOf(bare).map(({ length }) => length.mm)).toEqual(
    [218.5, 173.6, 147.8].map((each) => expect.closeTo(each, 1)),
  );
  expect(bare.questions.join()).toContain("stopper's face");
});

describe("a mesh that another kind of program made", () => {
  const HOLES = [
    [70, 5],
    [95, 7],
    [115, 4.5],
  ] as const;
  /** Bore 10, wall 3, 150 long, its front at y; side of the marched cells, mm. */
  const tubeOfCells = (side: number) =>
    implicitMesh(
      (x, y, z) => {
        const r = Math.hypot(x, y);
        const wood = Math.max(r - 8, 5 - r, -z, z - 150);
        return HOLES.reduce((body, [at, d]) => Math.max(body, y > 0 ? d / 2 - Math.hypot(x, z - at) : -9), wood);
      },
      [-9, -9, -2],
      [9, 9, 152],
      [side, side, (4 / 3) * side],
    );

  test("is read within the goals", () => {
    const found = surveyOf(turned(tubeOfCells(0.85)));
    near(tubeOf(found), HOLES, [150, 10, 10]);
    expect(found.notes.join()).toContain("rim is rounded or chamfered");
  });

  test("is refused where it is bent, and named where a side of it is missing", () => {
    // Refusals need no fine mesh.
    const tube = tubeOfCells(2.2);
    expect(() => surveyOf(turned(bent(tube, 5000)))).toThrow(/not straight.*unbend/);
    expect(() => surveyOf(bent(tube, 300))).toThrow(/not straight/);
    expect(() => surveyOf(withoutFaces(tube, (face) => (tube[9 * face] ?? 0) > 0))).toThrow(/no wall on one side/);
  });
});

test("flat sides are reported, and the uncertainty reaches to the circle of their corners", () => {
  const sides = 24;
  const point = (r: number, i: number, z: number) => [
    r * Math.cos((2 * Math.PI * i) / sides),
    r * Math.sin((2 * Math.PI * i) / sides),
    z,
  ];
  const ring = [
    [8, 0],
    [11, 0],
    [11, 200],
    [8, 200],
  ] as const;
  const soup = ring.flatMap(([r, z], k) => {
    const [s, y] = ring[(k + 1) % 4] ?? [0, 0];
    return Array.from({ length: sides }, (_, i) => [
      ...[point(r, i, z), point(r, i + 1, z), point(s, i, y)].flat(),
      ...[point(s, i, y), point(r, i + 1, z), point(s, i + 1, y)].flat(),
    ]).flat();
  });
  const found = surveyOf(Float64Array.from(soup));
  const { bore } = tubeOf(found);
  // Of equal area: 24/2·sin(2π/24)·8² = π·d²/4.
  expect(bore[0]?.diameter.mm).toBeCloseTo(2 * 8 * Math.sqrt((12 * Math.sin(Math.PI / 12)) / Math.PI), 3);
  expect(holds(bore[0]?.diameter, 16)).toBe(true);
  expect(found.notes.join()).toContain("about 24 flat sides: its corners lie on 16 mm");
});
