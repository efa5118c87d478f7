/** A player's lip does not grow with the print: a notch flute is moved alike by print scale and by redraw. */
import { expect, it } from "vitest";
import { rekey } from "../../../server/src/design/rekey/rekey.js";
import { fileOf } from "../../support/designs.js";
import { tube } from "../../support/marked.js";
import { note } from "../../support/vessel.js";

it.each([
  ["its lip assumed", "notch: { width: 8.5, depth: 4.5, edge: 2 }"],
  ["its lip stated", "notch: { width: 8.5, depth: 4.5, gap: 0.5, edge: 2 }"],
])("a notch flute printed smaller keeps the lip where it was: %s", (_, mouth) => {
  const design = tube(`family: rim
mouth: { ${mouth} }
fingerings: [{ note: G4, holes: "" }, { note: G5, holes: "", register: 2 }]
`);
  const { after } = rekey(fileOf(design), 0, note("Bb4"), "print-scale");
  const column = after.instrument.body.kind === "tube" ? after.instrument.body.column : undefined;
  const { printScale } = after.instrument;
  expect(printScale).toBeLessThan(0.97);
  const reach = column?.mouth.kind === "notch" ? 1000 * column.mouth.cutUp : Number.NaN;
  expect(reach).toBeCloseTo(mouth.includes("gap") ? 4.5 * printScale + 0.5 : 5, 6);
});
