/** Notes that a refit leaves weak: in a bore of 3 mm five high registers are, of 4.2 mm the upper four, of 6 mm none. */
import { expect, it } from "vitest";
import { weakened } from "../../../server/src/design/refit/weakened.js";
import { checked } from "../../support/designs.js";

const NOTES = ["C5", "D5", "E5", "F5", "G5"];
const analysis = (bore: number) =>
  checked(`borewright: 1
family: duct
key: C5
mouth: ideal
bore: [{ at: 0, diameter: ${bore} }, { at: 300, diameter: ${bore} }]
wall: 2
holes: [{ at: 60, diameter: 2 }]
fingerings: [${NOTES.map((note, i) => `{ note: ${note}, holes: x, register: ${i + 6} }`).join(", ")}]
`).analysis;
const [narrow, middle, wide] = [3, 4.2, 6].map(analysis) as [Analysis, Analysis, Analysis];
type Analysis = ReturnType<typeof analysis>;

it("three that were not weak before are named, the rest counted", () => {
  const named = (...names: readonly string[]) =>
    names.map((name) =>
      expect.stringMatching(
        new RegExp(`^After this refit ${name} will be weak: its resonance is only [\\d.]+ dB deep`),
      ),
    );
  expect(weakened(wide, narrow)).toEqual([
    ...named("C5", "D5", "E5"),
    "2 more notes will be weak: `check` names them.",
  ]);
  expect(weakened(wide, middle)).toEqual([...named("D5", "E5", "F5"), "1 more note will be weak: `check` names it."]);
  expect(weakened(middle, narrow)).toEqual(named("C5"));
});
it("nothing is said where none is, or where all were before", () => {
  expect(weakened(narrow, wide)).toEqual([]);
  expect(weakened(narrow, narrow)).toEqual([]);
});
