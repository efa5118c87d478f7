/** Bodies changed as numbers are those of designs whose text says so. */
import { describe, expect, it } from "vitest";
import { grownTube } from "../../../server/src/design/fix/grownTube.js";
import { longestOf, scaledBody, undersizedBody } from "../../../server/src/design/predict/body.js";
import {
  mouthLength,
  mouthLengthPath,
  mouthOf,
  withMouthLengths,
} from "../../../server/src/design/predict/mouthKnob.js";
import { sharedColumn } from "../../../server/src/instrument/body.js";
import { WHISTLE } from "../../support/designs.js";
import { panPipe, TUBE_FAMILIES, vessel } from "../../support/families.js";
import { instrumentOf, tube } from "../../support/marked.js";

const bodyOf = (text: string) => instrumentOf(text).body;
/** Lengths in whole picometres, without what the design says of its own numbers. */
const sizes = (value: unknown): unknown =>
  JSON.parse(
    JSON.stringify(value, (key, each) => (key === "size" || key === "path" ? undefined : each)),
    (_, each) => (typeof each === "number" ? Number(each.toFixed(12)) : each),
  );
const HOLES =
  "holes:\n  - { at: 200, diameter: 7, undercut: 1 }\n  - { at: 240, diameter: 6, length: 8, raised: 2, angle: 30 }\n";
const TUBE_CHAMBER = "shape: tube, length: 90, diameter: 40";
const DESIGNS: readonly (readonly [string, string])[] = [
  ["a whistle", WHISTLE],
  [
    "a window with a stopper",
    `${WHISTLE.replace("cutUp: 4.5, labium: 1 }", "cutUp: 4.5, stopper: 3 }\n  extra: 1.5")}`,
  ],
  ...Object.entries(TUBE_FAMILIES).map(([family, entries]) => [family, tube(`${entries}${HOLES}`)] as const),
  ["a notch", tube(`family: rim\nmouth: { cover: 0.6, notch: { width: 9, depth: 4 } }\n${HOLES}`)],
  ["a notch with its lip stated", tube(`family: rim\nmouth: { notch: { width: 9, depth: 4, gap: 0.5 } }\n${HOLES}`)],
  ["a deep notch", tube(`family: rim\nmouth: { notch: { width: 9, depth: 6 } }\n${HOLES}`)],
  ["a correction", tube(`mouth: { correction: 40 }\n${HOLES}`)],
  ["a textbook's mouth", tube(HOLES)],
  ["pan pipes", panPipe("mouth: { extra: 2 }")],
  ["a vessel", vessel("holes:\n  - { diameter: 6, angle: 60 }\n  - { diameter: 5, angle: -100, chimney: 6 }")],
  ["a vessel whose mouth was measured", vessel("").replace("cutUp: 5 }", "cutUp: 5 }, extra: 1.5")],
  [
    "a vessel blown across",
    vessel("holes: [{ diameter: 6, angle: 60 }]").replace(
      "window: { width: 9, cutUp: 5 }",
      "hole: { length: 12, width: 10 }",
    ),
  ],
  ["a closed tube", vessel("holes: [{ diameter: 5, at: 30 }]", TUBE_CHAMBER)],
];

describe("a body", () => {
  it.each(DESIGNS)("scaled is that of a print at another scale: %s", (_, text) => {
    const printed = bodyOf(`${text}print: { scale: 110 % }\n`);
    expect(sizes(scaledBody(bodyOf(text), 1.1))).toEqual(sizes(printed));
  });

  it.each(DESIGNS)("with smaller holes is that of a printer that makes them smaller: %s", (_, text) => {
    const printed = bodyOf(`${text}print: { holeUndersize: 0.3 }\n`);
    expect(sizes(undersizedBody(bodyOf(text), 0.3e-3))).toEqual(sizes(printed));
  });

  it.each([
    ["a whistle", WHISTLE, WHISTLE.replace("cutUp: 4.5, labium: 1 }", "cutUp: 4.5, labium: 1 }\n  extra: 3")],
    ["a correction", tube("mouth: { correction: 40 }\n"), tube("mouth: { correction: 3 }\n")],
    ["a textbook's mouth", tube(""), tube("")],
    ["pan pipes", panPipe(""), panPipe("mouth: { extra: 3 }")],
    ["a vessel", vessel(""), vessel("").replace("cutUp: 5 }", "cutUp: 5 }, extra: 3")],
    ["a closed tube", vessel("", TUBE_CHAMBER), vessel("", TUBE_CHAMBER).replace("cutUp: 5 }", "cutUp: 5 }, extra: 3")],
  ])("with another length of mouth is that of a design that says so: %s", (_, text, other) => {
    expect(sizes(withMouthLengths(bodyOf(text), () => 3e-3))).toEqual(sizes(bodyOf(other)));
    const mouth = mouthOf(bodyOf(other));
    expect(mouth && mouthLength(mouth)).toBeCloseTo(mouth?.kind === "ideal" ? 0 : 3e-3, 12);
    const path = mouth && mouthLengthPath(mouth);
    expect(path?.join(".")).toBe(
      { ideal: undefined, correction: "mouth.correction" }[String(mouth?.kind)] ??
        (mouth?.kind === "ideal" ? undefined : "mouth.extra"),
    );
  });

  it("is as long as its longest part", () => {
    expect(longestOf(bodyOf(WHISTLE))).toBeCloseTo(0.3941, 12);
    expect(longestOf(bodyOf(tube(TUBE_FAMILIES.transverse)))).toBeCloseTo(0.368, 12);
    const stations = "bore: [{ at: 0, diameter: 16 }, { at: 100, diameter: 15 }, { at: 300, diameter: 14 }]\n";
    expect(longestOf(bodyOf(tube(stations)))).toBeCloseTo(0.3, 12);
    expect(longestOf(bodyOf(panPipe("").replace("length: 124", "length: 224")))).toBeCloseTo(0.224, 12);
    expect(longestOf(bodyOf(vessel("", "shape: sphere, diameter: 70")))).toBeCloseTo(0.07, 12);
    expect(longestOf(bodyOf("borewright: 1\nfamily: duct\n"))).toBe(0);
    expect(longestOf(bodyOf(panPipe("")))).toBeCloseTo(0.158, 12);
    expect(longestOf(bodyOf(vessel("")))).toBeCloseTo(0.09, 12);
  });
});

describe("a closed tube grown", () => {
  const columnOf = (length: number, diameter = 40, more = "", mouth?: string) => {
    const text = vessel(
      "holes: [{ diameter: 5, at: 30 }]",
      `shape: tube, length: ${length}, diameter: ${diameter}${more}`,
    );
    const column = sharedColumn(
      bodyOf(mouth === undefined ? text : text.replace("window: { width: 9, cutUp: 5 }", mouth)),
    );
    if (column === undefined) throw new Error("no column");
    return column;
  };
  it("is one that is drawn longer or wider, its mouth at the end or in the middle, its holes where they were", () => {
    expect(sizes(grownTube(columnOf(90), false, 1.2, 1))).toEqual(sizes(columnOf(108)));
    expect(sizes(grownTube(columnOf(90), false, 0.8, 1.5))).toEqual(sizes(columnOf(72, 60)));
    const side = ", mouthAt: side";
    expect(sizes(grownTube(columnOf(90, 40, side), true, 1.2, 1))).toEqual(sizes(columnOf(108, 40, side)));
    const hole = "hole: { length: 12, width: 10 }";
    expect(sizes(grownTube(columnOf(90, 40, side, hole), true, 1.2, 1))).toEqual(sizes(columnOf(108, 40, side, hole)));
    expect(sizes(grownTube(columnOf(90, 40, "", hole), false, 1.2, 1))).toEqual(sizes(columnOf(108, 40, "", hole)));
  });
});
