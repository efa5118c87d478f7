/** A player's lip does not grow with the print: a notch flute is moved alike by print scale and by redraw. */
import { expect, it } from "vitest";
import { scaledColumn } from "../../../server/src/design/predict/scaledColumn.js";
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

it.each([
  ["its lip assumed", "depth: 4.5"],
  ["its lip assumed, and out of reach of the drawn notch", "depth: 6"],
  ["its lip stated", "depth: 4.5, gap: 0.5"],
])("a column scaled as a whole has the mouth of a print of that scale: %s", (_, notch) => {
  const mouthOf = (more: string, factor: number) => {
    const design = fileOf(tube(`family: rim\nmouth: { notch: { width: 8.5, ${notch}, edge: 2 } }\n${more}`));
    const body = design.documents[0]?.resolution.instrument.body;
    if (body?.kind !== "tube" || body.column === undefined) throw new Error("no column");
    return scaledColumn(body.column, factor).mouth;
  };
  const [scaled, printed] = [mouthOf("", 0.7), mouthOf("print: { scale: 70 % }\n", 1)];
  for (const [name, value] of Object.entries(printed))
    if (typeof value === "number") expect(scaled[name as keyof typeof scaled], name).toBeCloseTo(value, 9);
});
