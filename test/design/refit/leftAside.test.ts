/** Notes that no instrument of the kind can play, beside others that it can. */
import { expect, it } from "vitest";
import { retune } from "../../../server/src/design/refit/rekeyByRefit.js";
import { fileOf } from "../../support/designs.js";
import { tube } from "../../support/marked.js";

it("a note that lies an octave from all others is left aside, however little it stands out once they are pulled toward it", () => {
  const text = tube(`mouth: { window: { width: 9, cutUp: 4.5 } }
bore: [{ at: 0, diameter: 16 }, { at: 398, diameter: 16 }]
holes: [{ at: 300, diameter: 8 }]
fingerings:
  - { note: G4, holes: x }
  - { note: B4, holes: o }
  - { note: G5, holes: x, register: 2 }
  - { note: B5, holes: o, register: 2 }
  - { note: E5, holes: x }
`);
  const { after, remarks } = retune(fileOf(text), 0, "all");
  for (const { cents } of after.fingerings.slice(0, 4)) expect(Math.abs(cents ?? Number.NaN)).toBeLessThan(10);
  expect(remarks.join()).toMatch(/E5 cannot be reached: .* It is left aside/);
  // In the design's own key another key is no way out.
  expect(remarks.filter((remark) => remark.startsWith("Held back by")).join()).not.toMatch(/another key/);
});
