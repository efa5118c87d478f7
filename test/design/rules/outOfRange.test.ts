/** model/out-of-range as a maker reads it: it speaks where nothing was compared; elsewhere it is silent. */
import { readdirSync, readFileSync } from "node:fs";
import { describe, expect, it } from "vitest";
import { checked } from "../../support/designs.js";

const EXAMPLES = new URL("../../../examples/", import.meta.url);
const told = (text: string) =>
  checked(text)
    .findings.filter(({ code }) => code === "model/out-of-range")
    .map(({ message }) => message);
const flute = (bore: number, wall: number, holes: string, notes = "{ note: G4, holes: oo }") => `borewright: 1
family: transverse
mouth: { hole: { diameter: 10 } }
bore: [{ at: -20, diameter: ${bore} }, { at: 350, diameter: ${bore} }]
wall: ${wall}
holes:
${holes}
fingerings: [${notes}]
`;

describe("model/out-of-range", () => {
  it("is silent in the corners that were mended, wide neighbours in a thick wall and ovals in a thin one", () => {
    expect(
      told(flute(20, 6, "  - { name: A, at: 200, diameter: 15 }\n  - { name: B, at: 218, diameter: 15 }")),
    ).toEqual([]);
    const oval = "  - { name: A, at: 200, diameter: 6, length: 8 }\n  - { name: B, at: 230, diameter: 6 }";
    expect(told(flute(14, 0.4, oval))).toEqual([]);
  });

  it("says that beyond a bound nobody knows", () => {
    const holes = "  - { name: A, at: 200, diameter: 18 }\n  - { name: B, at: 250, diameter: 6 }";
    expect(told(flute(20, 4, holes))).toEqual([
      "A is 0.9 of the bore's width; the prediction was checked up to 0.8. How far off its notes are is not known.",
    ]);
    const rim =
      "borewright: 1\nfamily: rim\nmouth: { cover: 0.5 }\nwall: 8\nbore: [{ at: 0, diameter: 40 }, { at: 300, diameter: 40 }]\n";
    const [note, ...others] = told(
      `${rim}fingerings: [{ note: C5 }, { note: C6, register: 2 }, { note: G6, register: 3 }]\n`,
    );
    expect(note).toMatch(/^G6 is high for so wide a bore: the prediction was never checked that high\./);
    expect(others).toEqual([]);
  });

  it.each(readdirSync(EXAMPLES))("is silent on %s", (file) => {
    expect(told(readFileSync(new URL(file, EXAMPLES), "utf8"))).toEqual([]);
  });
});
