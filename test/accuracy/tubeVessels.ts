/** Source: three-dimensional finite elements, test/reference/fem-tube-vessels.json. */

import { registersOf } from "../../server/src/acoustics/resonance.js";
import { sharedColumn } from "../../server/src/instrument/body.js";
import { losslessAir } from "../acoustics/instruments.js";
import data from "../reference/fem-tube-vessels.json" with { type: "json" };
import { checked } from "../support/designs.js";
import { type ComparisonTable, inCents } from "./comparison.js";

interface Given {
  readonly name: string;
  readonly radius: number;
  readonly length: number;
  readonly wall: number;
  readonly mouth: {
    readonly width?: number;
    readonly cutUp?: number;
    readonly diameter?: number;
    readonly at?: number;
  };
  readonly holes: readonly { readonly at: number; readonly diameter: number; readonly side?: number }[];
  readonly openings: readonly { readonly holes: string; readonly hz: number; readonly q: number }[];
}

/** As a maker would write it: places are counted from the mouth's centre. */
function textOf({ radius, length, wall, mouth, holes }: Given): string {
  const { width = 0, cutUp = 0, diameter = 0, at = cutUp / 2 } = mouth;
  const opening =
    cutUp > 0
      ? `window: { width: ${width}, cutUp: ${cutUp}, labium: 1 }`
      : `hole: { length: ${diameter}, width: ${diameter} }, cover: 0`;
  const side = diameter > 0 && at > diameter ? ", mouthAt: side" : "";
  const lines = holes.map(
    (hole) => `  - { at: ${hole.at - at}, diameter: ${hole.diameter}${hole.side === -1 ? ", side: back" : ""} }`,
  );
  return `borewright: 1
family: vessel
key: C5
mouth: { ${opening} }
vessel: { shape: tube, length: ${length}, diameter: ${2 * radius}${side} }
wall: ${wall}
holes:
${lines.join("\n")}
`;
}

function openingsOf(given: Given) {
  const column = sharedColumn(checked(textOf(given)).analysis.instrument.body);
  if (column === undefined) throw new Error(`${given.name} is no column`);
  return given.openings.map(({ holes, hz, q }) => {
    const covers = [...holes].map((sign) => (sign === "X" ? 1 : 0));
    const [found] = registersOf(column, losslessAir, covers, 1);
    return {
      ...inCents(`${given.name}, ${holes}`, found?.frequency ?? Number.NaN, hz, 2.5),
      qualityShare: (found?.quality ?? Number.NaN) / q - 1,
      allowedShareOfQ: 0.15,
    };
  });
}

export const tubeVesselTable = {
  title: "Vessels with a tubular cavity",
  source:
    "The same method, driven by a pressure step across the mouth: `test/reference/fem-tube-vessels.json`, `test/reference/fem/tubevessel.py`. Signs in order from the mouth: X closed, O open.",
  unknown:
    "Uncertain by 0.4 to 1.1 cents. The flat ends are as thick as the side wall; above a window the body continues, because a windway leads to it. No constant was fitted to these. T1 and T2 did show that a window's inner end correction was too long and that openings interact with their images in the end walls, and T4 that they interact with the end of the body.",
  unit: "Hz",
  decimals: 2,
  differenceUnit: "cents",
  differenceDecimals: 2,
  rows: (data.vessels as readonly Given[]).flatMap(openingsOf),
} satisfies ComparisonTable;
