/** Notes with every hole closed are the bore's and the mouth's: where their octave is wrong, no hole is blamed or moved for it. */
import { expect, it } from "vitest";
import { retune } from "../../../server/src/design/refit/rekeyByRefit.js";
import { fileOf } from "../../support/designs.js";

/** A mouth that acts 1.5 mm deeper than its window, as a recording found it. Dimensions invented. */
const WHISTLE = `borewright: 1
family: duct
key: A4
tolerance: 5
mouth:
  extra: 1.5
  window: { width: 9.82, cutUp: 4.5, labium: 1 }
bore:
  - { at: 0, diameter: 16 }
  - { at: 346.6, diameter: 16 }
wall: 3
holes: [{ at: 230, diameter: 6 }]
fingerings:
  - { note: A4, holes: ● }
  - { note: A5, holes: ●, register: 2 }
`;

it("says which octave the bore alone decides, by how much, and what the bore would need", () => {
  const { remarks, after } = retune(fileOf(WHISTLE), 0, "all");
  const [low = 0, high = 0] = after.fingerings.map(({ cents }) => cents ?? Number.NaN);
  expect(remarks).toContain(
    `A4 and A5, fingered with every hole closed, lie ${(high - low).toFixed(1)} cents off their interval: no hole brings both closer than ${((high - low) / 2).toFixed(1)}. Only the bore's shape does: give it a station between the mouth and the first hole, and let it change: \`refit: { taper: free }\`.`,
  );
  // What is said to help does: both notes come in tune, and nothing is said.
  const shaped = WHISTLE.replace("  - { at: 346.6", "  - { at: 120, diameter: 16 }\n  - { at: 346.6");
  const refit = retune(fileOf(`${shaped}refit: { taper: free }\n`), 0, "all");
  expect(Math.abs(refit.after.summary?.worstCents ?? 99)).toBeLessThan(2);
  expect(refit.remarks.join(" ")).not.toContain("every hole closed");
});
