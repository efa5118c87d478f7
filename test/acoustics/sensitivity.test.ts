import { describe, expect, it } from "vitest";
import { airState } from "../../server/src/acoustics/air.js";
import type { Column, Mouth } from "../../server/src/acoustics/column.js";
import { type Query, soundingFrequencies } from "../../server/src/acoustics/resonance.js";
import { type Knob, LENGTH_STEP, sensitivities } from "../../server/src/acoustics/sensitivity.js";
import { cents } from "./instruments.js";

/** A whistle's and a flute's sizes: demo data of our own. */
const TEMPERATURE = 22;
const airAt = (temperature: number) =>
  airState({ temperature, humidity: 0.6, carbonDioxide: 0.0004, pressure: 101_325, losses: true });
const holes = [
  { x: 0.18, radius: 0.0035, chimney: 0.003, angle: Math.PI },
  { x: 0.2, radius: 0.004, chimney: 0.003, angle: 0 },
  { x: 0.235, radius: 0.0045, chimney: 0.003, angle: 0 },
  { x: 0.262, radius: 0.003, chimney: 0.003, angle: 0 },
];
const withMouth = (mouth: Mouth): Column => ({
  bore: [
    { x: -0.03, radius: 0.008 },
    { x: 0, radius: 0.008 },
    { x: 0.33, radius: 0.007 },
  ],
  wall: 0.003,
  foot: "open",
  holes,
  mouth,
});
const mouths: [string, Mouth][] = [
  ["ideal", { kind: "ideal" }],
  ["window", { kind: "window", width: 0.009, cutUp: 0.0045, chimney: 0.003 }],
  ["window, its plug away", { kind: "window", width: 0.009, cutUp: 0.0045, chimney: 0.003, stopper: 0.005 }],
  ["embouchure", { kind: "embouchure", length: 0.011, width: 0.009, chimney: 0.004, cover: 0.4, stopper: 0.016 }],
  ["rim", { kind: "rim", cover: 0.7 }],
];
const queries: Query[] = [
  { covers: [1, 1, 1, 1], register: 1 },
  { covers: [1, 1, 0, 0], register: 1 },
  { covers: [1, 0, 1, 0.5], register: 1 },
  { covers: [0, 0, 0, 0], register: 1 },
  { covers: [1, 1, 1, 0], register: 2 },
];

const KELVIN_STEP = 1e-6;
type Turned = { column: Column; air: ReturnType<typeof airAt> };

function changedHole(column: Column, index: number, what: "x" | "radius", by: number): Column {
  return { ...column, holes: column.holes.map((h, i) => (i === index ? { ...h, [what]: h[what] + by } : h)) };
}
function changedFoot(column: Column, what: "x" | "radius", by: number): Column {
  const last = column.bore.length - 1;
  return { ...column, bore: column.bore.map((s, i) => (i === last ? { ...s, [what]: s[what] + by } : s)) };
}

/** Name, the change, and a step for the central difference: far above the search's 1e-10, far below what bends the curve. */
const quantities: [name: string, turn: (column: Column, by: number) => Turned, step: number, own: number][] = [
  [
    "hole place",
    (column, by) => ({ column: changedHole(column, 2, "x", by), air: airAt(TEMPERATURE) }),
    1e-5,
    LENGTH_STEP,
  ],
  [
    "hole radius",
    (column, by) => ({ column: changedHole(column, 2, "radius", by), air: airAt(TEMPERATURE) }),
    1e-6,
    LENGTH_STEP,
  ],
  [
    "foot place",
    (column, by) => ({ column: changedFoot(column, "x", by), air: airAt(TEMPERATURE) }),
    1e-5,
    LENGTH_STEP,
  ],
  [
    "foot radius",
    (column, by) => ({ column: changedFoot(column, "radius", by), air: airAt(TEMPERATURE) }),
    1e-6,
    LENGTH_STEP,
  ],
  ["air temperature", (column, by) => ({ column, air: airAt(TEMPERATURE + by) }), 1e-2, KELVIN_STEP],
];

const frequenciesOf = ({ column, air }: Turned) => soundingFrequencies(column, air, queries).map((s) => s?.frequency);

describe.each(mouths)("cents a unit, with a mouth of kind %s", (_, mouth) => {
  const column = withMouth(mouth);
  const here = { column, air: airAt(TEMPERATURE) };
  const knobs: Knob[] = quantities.map(([, turn, , own]) => ({ change: (by) => turn(column, by), step: own }));
  const found = sensitivities(column, here.air, queries, frequenciesOf(here), knobs);
  const strongest = Math.max(...found.map((row) => Math.abs(row[0] as number)));

  it.each(quantities.map(([name, turn, step], i) => ({ name, turn, step, i })))(
    "of $name are the differences of whole predictions",
    ({ turn, step, i }) => {
      // Central differences of the search for the resonance itself.
      const above = frequenciesOf(turn(column, step));
      const below = frequenciesOf(turn(column, -step));
      const expected = queries.map((_, q) => cents(above[q] ?? Number.NaN, below[q] ?? Number.NaN) / (2 * step));
      const largest = Math.max(...expected.map(Math.abs));
      expected.forEach((value, q) => {
        // A closed hole's place hardly moves a note: held against the note that it moves most.
        const slack = 1e-4 * Math.max(Math.abs(value), largest / 50);
        expect(Math.abs((found[q]?.[i] ?? Number.NaN) - value), `query ${q}`).toBeLessThan(slack);
      });
    },
  );

  it("moves notes at all", () => {
    expect(strongest).toBeGreaterThan(100);
  });
});

describe("what cannot be perturbed", () => {
  const column = withMouth({ kind: "ideal" });
  const here = { column, air: airAt(TEMPERATURE) };
  const frequencies = frequenciesOf(here);

  it("is NaN, and a note without frequency has no row", () => {
    const none: Knob = { change: () => undefined, step: 1 };
    const [first, second] = sensitivities(column, here.air, queries, [frequencies[0], undefined], [none]);
    expect(first).toEqual([Number.NaN]);
    expect(second).toEqual([]);
  });

  it("one way is opposite to the other", () => {
    const change = (by: number) => ({ ...here, column: changedFoot(column, "x", by) });
    const both: Knob = { change, step: LENGTH_STEP };
    const back: Knob = { change: (by) => (by > 0 ? undefined : change(by)), step: LENGTH_STEP };
    const [row] = sensitivities(column, here.air, queries, frequencies, [both, back]);
    expect(Math.abs((row?.[1] as number) / (row?.[0] as number) - 1)).toBeLessThan(1e-4);
  });
});
