/** A pan pipe's refit: each pipe cut to its own note, none for less than anybody hears, none beyond what the printer takes. */
import { describe, expect, it } from "vitest";
import { Cancelled } from "../../../server/src/acoustics/cancelled.js";
import { pipesProspect, refitPipes } from "../../../server/src/design/refit/refitPipes.js";
import { applyEdits } from "../../../server/src/document/edits.js";
import { checked, documentOf, fileOf } from "../../support/designs.js";
import { numberAt } from "../../support/marked.js";

/** The second is 25 mm too long, the third a little. Dimensions invented. */
const PIPES = `borewright: 1
family: panpipe
key: C5
air: { temperature: 22, humidity: 60 }
mouth: { cover: 0.55 }
wall: 2
pipes:
  - { note: C5, length: 153.6, diameter: 15 }
  - { note: D5, length: 160, diameter: 15 }
  - { note: E5, length: 121, diameter: 15 }
`;
const asked = (text: string) => {
  const file = fileOf(text);
  return [file, documentOf(file), checked(text).analysis] as const;
};
function refitted(text: string) {
  const refit = refitPipes(...asked(text), {});
  return { ...refit, text: applyEdits(text, refit.edits) };
}
const lengths = (text: string) => [0, 1, 2].map((i) => numberAt(text, `pipes.${i}.length`));

describe("pipes", () => {
  const { text, moves, isInTune, obstacles } = refitted(PIPES);

  it("come into tune by their lengths, on the drawing's steps, and the same again changes nothing", () => {
    expect(isInTune).toBe(true);
    expect(obstacles()).toEqual([]);
    for (const { cents = 99 } of checked(text).analysis.fingerings) expect(Math.abs(cents)).toBeLessThan(1);
    for (const { path, from, to } of moves) {
      expect(path[2]).toBe("length");
      expect(from).toBe(numberAt(PIPES, path.join(".")));
      expect(Number(to.toFixed(1))).toBe(to);
    }
    expect(moves.map(({ path }) => path[1])).toContain(1);
    expect(refitted(text).edits).toEqual([]);
    expect(pipesProspect(...asked(PIPES), {})).toBe("can");
  });
  it("are not cut again for less than half a cent, nor for a step that leads past the note", () => {
    // Three tenths of a millimetre are some three cents, a tenth less than one.
    const off = (by: number) => {
      const own = lengths(text).map((mm) => mm ?? 0);
      const changed = text.replace(`length: ${own[0]},`, `length: ${Number(((own[0] ?? 0) + by).toFixed(2))},`);
      return refitted(changed).moves.length;
    };
    expect([off(0.3), off(0.04)]).toEqual([1, 0]);
    const coarse = refitted(`${text}print: { rounding: 5 }\n`);
    expect(coarse.edits).toEqual([]);
  });
  it("that the bed does not take stay as they are, with what they would need; the others are cut", () => {
    // In G4 the first would be 20 cm long.
    const far = PIPES.replace("note: C5", "note: G4").concat("print: { bed: [170, 120, 30] }\n");
    const held = refitted(far);
    expect(lengths(held.text)[0]).toBe(153.6);
    expect(lengths(held.text)[1]).toBeLessThan(140);
    expect(held.isInTune).toBe(false);
    const [first, ...others] = held.obstacles();
    expect(others).toEqual([]);
    expect(first?.message).toMatch(
      /^G4 would need a pipe of 20\d(\.\d)? mm, but it has 153\.6 mm: The row of pipes .*[^.]$/,
    );
    expect(first?.advice).toBe("state a larger bed (print.bed) or a wider pipe");
    expect(first).toMatchObject({ limit: expect.closeTo(153.6, 6), unit: "mm" });
    expect(first?.needed).toBeGreaterThan(200);
    expect(pipesProspect(...asked(far), {})).toBe("cannot");
  });
  it("whose note cannot be reached by any length are not in tune", () => {
    const lowest = PIPES.replace("note: C5", "note: C1");
    expect(refitted(lowest).isInTune).toBe(false);
    expect(lengths(refitted(lowest).text)[1]).toBeLessThan(140);
  });
  it("stop when told to", () => {
    expect(() => refitPipes(...asked(PIPES), { shouldStop: () => true })).toThrow(Cancelled);
  });
});
