/** What measured notes may change: where it is written, how far it may go, and that a trial is the design which says so. */
import { describe, expect, it } from "vitest";
import { mouthUnknown, secondUnknowns } from "../../../server/src/design/calibrate/unknowns.js";
import { analyse } from "../../../server/src/design/predict/analyse.js";
import { panPipe } from "../../support/families.js";
import { instrumentOf, tube } from "../../support/marked.js";

const AIR = "air: { temperature: 21 }\n";
const HOLE = "holes: [{ at: 200, diameter: 7 }]\n";
const WINDOW = "mouth: { window: { width: 9, cutUp: 4.5 } }\n";
const MEASURED = "measured: [{ note: G4, hz: 390, temperature: 19 }]\n";
const whistle = (more = "") => tube(`${AIR}${WINDOW}${HOLE}${more}`);
const INCHES = tube(
  `units: in\n${AIR}mouth: { window: { width: 0.35, cutUp: 0.18 }, extra: 0.05 }\nbore: [{ at: 0, diameter: 0.6 }, { at: 14, diameter: 0.6 }]\nwall: 0.1\nholes: [{ at: 8, diameter: 0.3 }]\nhands: { spacing: 0.1 }\nprint: { holeUndersize: 0.006 }\n${MEASURED}`,
);

const all = (text: string, shrinkage = 0) => {
  const analysis = analyse(instrumentOf(text));
  return [mouthUnknown(analysis), ...secondUnknowns(analysis, shrinkage)].flatMap((each) => each ?? []);
};
const told = (text: string, shrinkage = 0) =>
  all(text, shrinkage).map(({ path, before, least, greatest, decimals }) => [
    path.join("."),
    ...[before, least, greatest].map((value) => Number(value.toFixed(9))),
    decimals,
  ]);

describe("what may be fitted", () => {
  it.each<readonly [string, string, readonly (readonly [string, number, number, number, number])[]]>([
    [
      "without a stated temperature: mouth, air, holes",
      whistle(),
      [
        ["mouth.extra", 0, -60, 60, 2],
        ["air.temperature", 21, 9, 33, 1],
        ["print.holeUndersize", 0, 0, 1, 2],
      ],
    ],
    [
      "with one: the shrinkage instead",
      whistle(MEASURED),
      [
        ["mouth.extra", 0, -60, 60, 2],
        ["print.shrinkage", 0, -1, 2, 2],
        ["print.holeUndersize", 0, 0, 1, 2],
      ],
    ],
    [
      "with one for a single note: the shrinkage as well",
      whistle(MEASURED.replace("]", ", { note: A4, hz: 440 }]")),
      [
        ["mouth.extra", 0, -60, 60, 2],
        ["print.shrinkage", 0, -1, 2, 2],
        ["print.holeUndersize", 0, 0, 1, 2],
      ],
    ],
    [
      "of a correction, which is never negative",
      tube(`${AIR}mouth: { correction: 40 }\n`),
      [
        ["mouth.correction", 40, 0, 200, 2],
        ["air.temperature", 21, 9, 33, 1],
      ],
    ],
    ["nothing of the textbook's mouth but the air", tube(AIR), [["air.temperature", 21, 9, 33, 1]]],
    [
      "no air that is as played",
      whistle().replace(AIR, "air: played\n"),
      [
        ["mouth.extra", 0, -60, 60, 2],
        ["print.holeUndersize", 0, 0, 1, 2],
      ],
    ],
    [
      "no air whose speed of sound is stated",
      whistle().replace(AIR, "air: { temperature: 21, speedOfSound: 344 }\n"),
      [
        ["mouth.extra", 0, -60, 60, 2],
        ["print.holeUndersize", 0, 0, 1, 2],
      ],
    ],
    [
      "no holes of pipes",
      panPipe(AIR),
      [
        ["mouth.extra", 0, -60, 60, 2],
        ["air.temperature", 21, 9, 33, 1],
      ],
    ],
    [
      "in inches, of 25.4 mm (international yard and pound agreement of 1959)",
      INCHES,
      [
        ["mouth.extra", 0.05, Number((-60 / 25.4).toFixed(9)), Number((60 / 25.4).toFixed(9)), 4],
        ["print.shrinkage", 0, -1, 2, 2],
        ["print.holeUndersize", 0.006, 0, Number((1 / 25.4).toFixed(9)), 4],
      ],
    ],
  ])("is told with its ends: %s", (_, text, expected) => {
    expect(told(text)).toEqual(expected);
  });
});

describe("a trial", () => {
  /** Lengths in nanometres, without what the design says of its own numbers. */
  const sizes = (value: unknown): unknown =>
    JSON.parse(
      JSON.stringify(value, (key, each) => (key === "size" || key === "path" ? undefined : each)),
      (_, each) => (typeof each === "number" ? Number(each.toFixed(9)) : each),
    );
  const print = (entry: string) => `print: { ${entry} }\n`;
  it.each<readonly [string, string, number, string, number]>([
    ["mouth", whistle(MEASURED), 2.5, whistle(MEASURED).replace("cutUp: 4.5 }", "cutUp: 4.5 }, extra: 2.5"), 0],
    ["undersize", whistle(MEASURED), 0.4, whistle(MEASURED + print("holeUndersize: 0.4")), 0],
    [
      "undersize",
      whistle(MEASURED + print("holeUndersize: 0.15")),
      0.4,
      whistle(MEASURED + print("holeUndersize: 0.4")),
      0,
    ],
    ["shrinkage", whistle(MEASURED), 1.5, whistle(MEASURED + print("shrinkage: 1.5 %")), 0],
    [
      "shrinkage",
      whistle(MEASURED + print("shrinkage: 0.5 %")),
      1.5,
      whistle(MEASURED + print("shrinkage: 1.5 %")),
      0.5,
    ],
    ["undersize", INCHES, 0.01, INCHES.replace("holeUndersize: 0.006", "holeUndersize: 0.01"), 0],
    ["mouth", INCHES, 0.1, INCHES.replace("extra: 0.05", "extra: 0.1"), 0],
  ])("of the %s is the design that says so", (quantity, text, value, other, shrinkage) => {
    const { body } = instrumentOf(text);
    const unknown = all(text, shrinkage).find((each) => each.quantity === quantity);
    const trial = unknown?.apply({ body, temperature: 21 }, value);
    expect(sizes(trial?.body)).toEqual(sizes(instrumentOf(other).body));
    expect(trial?.temperature).toBe(21);
  });
  it("of the air is in another", () => {
    const { body } = instrumentOf(whistle());
    const air = all(whistle()).find(({ quantity }) => quantity === "temperature");
    expect(air?.apply({ body, temperature: 21 }, 25)).toEqual({ body, temperature: 25 });
  });
});
