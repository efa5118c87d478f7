/** Notes of a tube whose dimensions are being solved: followed from point to point, they are those of the design drawn so. */
import { describe, expect, it } from "vitest";
import { spentAfter } from "../../../server/src/acoustics/work.js";
import { constraintsOf } from "../../../server/src/design/constraints/constraints.js";
import { unknownsOf, valueIn } from "../../../server/src/design/constraints/unknowns.js";
import { Tuner } from "../../../server/src/design/refit/tuner.js";
import { checked, documentOf, fileOf } from "../../support/designs.js";
import { columnOf, tube } from "../../support/marked.js";

const TEXT = (first = 150, foot = 352) =>
  tube(`mouth: { window: { width: 9, cutUp: 4.5 } }
bore: [{ at: 0, diameter: 16 }, { at: ${foot}, diameter: 16 }]
holes: [{ at: ${first}, diameter: 7 }, { at: 250, diameter: 8 }]
fingerings:
  - { note: G4, holes: xx }
  - { note: C5, holes: xo }
  - { note: G5, holes: xx, register: 2 }
  - { note: E5, holes: oo }
`);

function tunerOf(text: string, targets?: readonly (number | undefined)[]) {
  const { analysis } = checked(text);
  const column = columnOf(text);
  const unknowns = unknownsOf(analysis.instrument, column, "all", constraintsOf(documentOf(fileOf(text))));
  const own = analysis.fingerings.map(({ targetHz }) => targetHz);
  return {
    analysis,
    tuner: new Tuner({ analysis, column, unknowns, targets: targets ?? own }, {}),
    present: unknowns.map((unknown) => 1e3 * valueIn(unknown, column)),
  };
}
const centsOf = (text: string) => checked(text).analysis.fingerings.map(({ cents = Number.NaN }) => cents);
const near = (cents: readonly number[] = [], digits = 2) => cents.map((each) => expect.closeTo(each, digits));

describe("the notes at a point", () => {
  const { tuner, present } = tunerOf(TEXT());
  // The first hole 10 mm farther down, the tube 8 longer.
  const there = present.map((value) => (value === 150 ? 160 : value === 352 ? 360 : value));

  it("are those of the design with these dimensions, followed or scanned", () => {
    expect(present).toEqual([150, 3.5, 250, 4, 352]);
    expect(tuner.at(present)?.cents).toEqual(near(centsOf(TEXT())));
    const followed = tuner.at(there);
    expect(followed?.cents).toEqual(near(centsOf(TEXT(160, 360))));
    expect(tuner.scanned(there)?.cents).toEqual(near(followed?.cents));
    expect(followed?.column.bore.at(-1)?.x).toBeCloseTo(0.36, 9);
  });
  it("are taken from the analysis where the design stands as it is, without any work", () => {
    const { analysis, tuner, present } = tunerOf(TEXT());
    const hasWorked = spentAfter(0);
    const cents = analysis.fingerings.map((each) => each.cents ?? Number.NaN);
    expect(tuner.at(present)?.cents).toEqual(near(cents, 9));
    expect(hasWorked()).toBe(false);
  });
  it("are worked out once, and so are their slopes", () => {
    const once = tuner.at(there);
    expect(once).toBeDefined();
    tuner.at(present.map((value) => value + 0.1));
    expect(tuner.at(there)).toBe(once);
    if (once !== undefined) expect(tuner.slopes(once)).toBe(tuner.slopes(once));
  });
  it("change by their slopes, cents per millimetre of each", () => {
    const here = tuner.scanned(present);
    if (here === undefined) throw new Error("nothing sounds");
    const slopes = tuner.slopes(here);
    present.forEach((_, i) => {
      const [less, more] = [-0.05, 0.05].map(
        (by) => tuner.scanned(present.map((value, j) => (i === j ? value + by : value)))?.cents ?? [],
      );
      slopes.forEach((row, note) => {
        expect(row[i]).toBeCloseTo(((more?.[note] ?? 0) - (less?.[note] ?? 0)) / 0.1, 1);
      });
    });
  });
  it("are found by a scan where nothing near is known to follow them from, and are none where no tube is", () => {
    const far = present.map((value) => (value > 10 ? 2 * value : value));
    expect(tuner.at(far)?.cents).toEqual(near(tuner.scanned(far)?.cents));
    expect(tuner.at(present.map((value, i) => (i === 1 ? -1 : value)))).toBeUndefined();
    expect(tuner.scanned(present.map((value, i) => (i === 1 ? Number.NaN : value)))).toBeUndefined();
  });
  it("begin anew where they are told to", () => {
    const [before] = [tuner.at(there)];
    tuner.restart(present);
    expect(tuner.at(there)).not.toBe(before);
    expect(tuner.at(there)?.cents).toEqual(near(before?.cents));
  });
});

it("a note without a target does not count", () => {
  const { tuner, present } = tunerOf(TEXT(), [undefined, 500, undefined, 600]);
  expect(tuner.tunable).toEqual([1, 3]);
  expect(tuner.at(present)?.cents).toHaveLength(2);
});
