/** Surveys of vessels whose sizes are known: our own solids, in one piece and in halves. */
import { readFileSync } from "node:fs";
import { expect, test } from "vitest";
import { surveyedDesign } from "../../server/src/design/survey/surveyedDesign.js";
import { survey } from "../../server/src/survey/survey.js";
import type { SurveyedVessel } from "../../server/src/survey/surveyed.js";
import { documentOf, fileOf } from "../support/designs.js";
import { laidOut, scaled, surveyOf, turned } from "../support/surveys.js";

/** The goal of issue 17, mm. */
const SIZE = 0.05;

function vesselOf(found: ReturnType<typeof surveyOf>): SurveyedVessel {
  if (found.body.kind !== "vessel") throw new Error(`a ${found.body.kind}`);
  return found.body;
}

const closeTo = (values: readonly number[], digits = 1) => values.map((each) => expect.closeTo(each, digits));

test("a vessel's chamber, window and holes are read, slanted and in inches", async () => {
  const text = readFileSync("examples/lantern-vessel.bore.yaml", "utf8").replace(
    /^print:.*$/m,
    "solid: { halves: false }",
  );
  const [body = new Float64Array()] = await laidOut(text);
  const found = surveyOf(scaled(turned(body), 1 / 25.4));
  const vessel = vesselOf(found);
  const { draft } = documentOf(fileOf(text)).resolution;
  expect(vessel.window?.width.mm).toBeCloseTo(9.4, 1);
  expect(vessel.window?.cutUp.mm).toBeCloseTo(4.5, 1);
  expect(vessel.axes?.map(({ mm }) => mm)).toEqual([62.3, 44, 40].map((mm) => expect.closeTo(mm, 1)));
  const drawn = (draft.holes ?? []).map(({ diameter }) => Number(diameter)).sort((a, b) => a - b);
  expect(drawn).toHaveLength(6);
  for (const [i, { diameter }] of vessel.holes.entries())
    expect(Math.abs(diameter.mm - (drawn[i] ?? 0))).toBeLessThan(SIZE);
  expect(found.questions.join()).toContain("in inches");
});

const BODY = `borewright: 1
family: vessel
key: C5
vessel: { shape: ellipsoid, length: 66, width: 48, height: 42 }
wall: 3
fingerings: [{ degree: 1, holes: xxx }]
`;

test("halves that lie beside each other are put together, rim on rim", async () => {
  const halves = await laidOut(`${BODY}mouth: { window: { width: 10, cutUp: 5 } }
holes: [{ name: A, diameter: 3, angle: 50 }, { name: B, diameter: 4.2, angle: 150 }, { name: C, diameter: 6, angle: -130 }]`);
  expect(halves).toHaveLength(2);
  const found = surveyOf(...halves.map((half) => turned(half)));
  const { axes, holes, window } = vesselOf(found);
  expect(axes?.map(({ mm }) => mm)).toEqual(closeTo([66, 48, 42]));
  expect([window?.width.mm, window?.cutUp.mm]).toEqual(closeTo([10, 5], 2));
  expect(holes.map(({ diameter }) => diameter.mm)).toEqual(closeTo([3, 4.2, 6], 2));
  // The halves of an ellipsoid fit in two ways: that is asked.
  expect(found.questions.join()).toContain("`borewright survey --other-turn`");
  // Seen from the chamber's middle each hole of one half comes to lie on the far side of the other's, half round the seam.
  const turnedHalf = survey({ parts: halves.map((half) => turned(half)), millimetres: undefined }, { otherTurn: true });
  const angles = (each: ReturnType<typeof surveyOf>) =>
    vesselOf(each).holes.map(({ angle }) => Math.round(angle.degrees));
  expect(angles(turnedHalf)).not.toEqual(angles(found));
  expect(vesselOf(turnedHalf).holes.map(({ diameter }) => diameter.mm)).toEqual(closeTo([3, 4.2, 6], 2));
});

test("a vessel blown across a hole is read, with ovals and rims of their own", async () => {
  const [body = new Float64Array()] = await laidOut(`${BODY}solid: { halves: false }
mouth: { hole: { length: 9, width: 11, chimney: 4 } }
holes: [{ name: A, diameter: 3, length: 4, angle: 50 }, { name: B, diameter: 4.2, angle: 150, chimney: 5 }, { name: C, diameter: 6, angle: -130, chimney: 2.2 }]`);
  const found = surveyOf(turned(body));
  const { hole, holes } = vesselOf(found);
  expect([hole?.length.mm, hole?.width.mm, hole?.chimney?.mm]).toEqual(closeTo([9, 11, 4]));
  expect(holes.map(({ diameter }) => diameter.mm)).toEqual(closeTo([3, 4.2, 6], 2));
  expect(holes.map(({ length }) => length?.mm)).toEqual([expect.closeTo(4, 2), undefined, undefined]);
  expect(holes.map(({ chimney }) => chimney?.mm)).toEqual([undefined, ...closeTo([5, 2.2])]);
  const { text, analysis } = surveyedDesign(found, "x", "mm");
  expect(documentOf(fileOf(text)).findings.filter(({ severity }) => severity === "error")).toEqual([]);
  expect(analysis.fingerings.every(({ predictedHz }) => predictedHz !== undefined)).toBe(true);
});
