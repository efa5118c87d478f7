/** The notch of an end-blown flute, as a maker writes it. Dimensions invented. */
import { expect, it } from "vitest";
import { analyse } from "../../server/src/design/predict/analyse.js";
import { centsAbove } from "../../server/src/music/cents.js";
import { documentOf, fileOf } from "../support/designs.js";

const flute = (mouth: string, rest = "") => `borewright: 1
family: rim
key: G4
mouth: { ${mouth} }
bore: [ { at: 0, diameter: 18 }, { at: 380, diameter: 18 } ]
wall: 3
${rest}fingerings: [ { degree: 1 } ]
`;

const hz = (text: string) => {
  const { instrument } = documentOf(fileOf(text)).resolution;
  return analyse(instrument).fingerings[0]?.predictedHz ?? Number.NaN;
};

it("has the usual distance from lip to edge and the usual edge where none is written", () => {
  expect(hz(flute("notch: { width: 10, depth: 2 }"))).toBe(
    hz(flute("notch: { width: 10, depth: 2, gap: 3, edge: 2 }")),
  );
  expect(hz(flute("notch: { width: 10, depth: 6 }"))).toBe(hz(flute("notch: { width: 10, depth: 6, gap: 0 }")));
});

// Common practice, no source: 1 mm of lip bends by 10 to 20 cents and more.
it("sounds sharper the farther the lip, the wider and the thinner it is", () => {
  const plain = hz(flute("notch: { width: 10, depth: 4, gap: 1, edge: 2 }"));
  const bent = centsAbove(hz(flute("notch: { width: 10, depth: 4, gap: 2, edge: 2 }")), plain);
  expect(bent).toBeGreaterThan(10);
  expect(bent).toBeLessThan(40);
  expect(hz(flute("notch: { width: 11, depth: 4, gap: 1, edge: 2 }"))).toBeGreaterThan(plain);
  expect(hz(flute("notch: { width: 10, depth: 4, gap: 1, edge: 1.5 }"))).toBeGreaterThan(plain);
});

it("is the same drawn in inches and millimetres, and grows with the print", () => {
  const inches = (mm: number) => mm / 25.4;
  const drawn = `borewright: 1
units: in
family: rim
key: G4
mouth: { notch: { width: ${inches(10)}, depth: ${inches(2)} } }
bore: [ { at: 0, diameter: ${inches(18)} }, { at: ${inches(380)}, diameter: ${inches(18)} } ]
wall: ${inches(3)}
fingerings: [ { degree: 1 } ]
`;
  expect(hz(drawn)).toBeCloseTo(hz(flute("notch: { width: 10, depth: 2 }")), 6);
  const twice = hz(flute("notch: { width: 10, depth: 4 }", "print: { scale: 200 % }\n"));
  expect(centsAbove(twice, hz(flute("notch: { width: 10, depth: 4 }")) / 2)).toBeLessThan(20);
});

it("can be calibrated like every mouth", () => {
  expect(hz(flute("notch: { width: 10, depth: 4 }, extra: 2"))).toBeLessThan(
    hz(flute("notch: { width: 10, depth: 4 }")),
  );
});
