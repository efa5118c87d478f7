/** What hands ask is asked of every proposal: fingers keep apart, and two holes under one finger stay one pair. */
import { describe, expect, it } from "vitest";
import { fixesFor } from "../../../server/src/design/fix/fixHole.js";
import { retune } from "../../../server/src/design/refit/rekeyByRefit.js";
import { rekey } from "../../../server/src/design/rekey/rekey.js";
import { applyEdits } from "../../../server/src/document/edits.js";
import { parseNote } from "../../../server/src/music/note.js";
import { checked, documentOf, fileOf, WHISTLE } from "../../support/designs.js";
import { numberAt } from "../../support/marked.js";

const spacings = (text: string) => {
  const at = [0, 1, 2, 3, 4, 5].map((i) => numberAt(text, `holes.${i}.at`) ?? Number.NaN);
  return at.slice(1).map((place, i) => place - (at[i] ?? 0));
};

/** Two double holes low on a tube: a semitone and a tone by the lower pair. Dimensions invented, and a little off. */
const DOUBLE = `borewright: 1
family: duct
key: F4
tolerance: 5
air: { temperature: 24, humidity: 80 }
mouth: { window: { width: 12.5, cutUp: 4.3, labium: 1 } }
bore: [ { at: 0, diameter: 19 }, { at: 430, diameter: 19 } ]
wall: 5
holes:
  - { name: S6a, at: 303, diameter: 5, angle: -25 }
  - { name: S6b, at: "=S6a.at", diameter: 6, angle: 25 }
  - { name: S7a, at: 338, diameter: 4, angle: -25 }
  - { name: S7b, at: 339, diameter: 4.2, angle: 25 }
fingerings:
  - { note: F4, holes: xx xx }
  - { note: F#4, holes: xx xo }
  - { note: G4, holes: xx oo }
  - { note: G#4, holes: xo oo }
  - { note: A4, holes: oo oo }
`;

describe("fingers in a refit", () => {
  const refitted = (text: string, to: string) => {
    const key = parseNote(to);
    if (key === undefined) throw new Error(to);
    return rekey(fileOf(text), 0, key, "refit");
  };

  it("never come nearer than the hands allow, though a nearer place would do for the notes", () => {
    const free = refitted(`${WHISTLE}hands: { spacing: 1 }\n`, "E5").text;
    // Without the limit two of them would: else this would test nothing.
    expect(Math.min(...spacings(free))).toBeLessThan(14);
    const held = refitted(WHISTLE, "E5");
    expect(Math.min(...spacings(held.text))).toBeGreaterThanOrEqual(17 - 1e-6);
    expect(spacings(held.text)[2]).toBeGreaterThanOrEqual(20);
    // Comfort may cost half the tolerance.
    expect(Math.abs(held.after.summary?.worstCents ?? 99)).toBeLessThan(5);
  });

  it("say when they are in the way, with the remedy", () => {
    const narrow = WHISTLE.replace(/(at: [\d.]+, diameter: )([\d.]+) \}/g, (_, before: string, mm: string) => {
      const width = Number(mm);
      return `${before}${mm}, limits: { diameter: [${width - 1}, ${width + 1}] } }`;
    });
    const { obstacles, text } = refitted(narrow, "F5");
    expect(obstacles.map(({ message }) => message).join("; ")).toMatch(
      / mm apart, but two fingers need 17 mm as a rule/,
    );
    expect(obstacles.map(({ advice }) => advice)).toContain("let fingers lie nearer (hands.spacing)");
    expect(Math.min(...spacings(text))).toBeGreaterThanOrEqual(17 - 1e-6);
  });
});

describe("two holes under one finger", () => {
  it("are moved together by a refit, as they are written", () => {
    const { text } = retune(fileOf(DOUBLE), 0, "holes");
    expect(numberAt(text, "holes.0.at")).not.toBe(303);
    expect(text).toContain('{ name: S6b, at: "=S6a.at"');
    expect((numberAt(text, "holes.3.at") ?? 0) - (numberAt(text, "holes.2.at") ?? 0)).toBeCloseTo(1, 6);
    expect(checked(text).findings.map(({ code }) => code)).not.toContain("pitch/out-of-tune");
  });
  it.each([0, 1, 2, 3])("are moved together by a fix of hole %i", (hole) => {
    const document = documentOf(fileOf(DOUBLE));
    const { analysis } = checked(DOUBLE);
    const fingering = hole < 2 ? 4 : 2;
    const [move] = fixesFor(document, analysis, hole, fingering).filter(({ kind }) => kind === "move");
    if (move === undefined) throw new Error("no move on offer");
    expect(move.title).toMatch(/^Move S(6a and S6b|7a and S7b) /);
    const text = applyEdits(DOUBLE, move.edits);
    expect(text).toContain('{ name: S6b, at: "=S6a.at"');
    expect((numberAt(text, "holes.3.at") ?? 0) - (numberAt(text, "holes.2.at") ?? 0)).toBeCloseTo(1, 6);
  });
  it("stay where they are if one of them is fixed", () => {
    const fixed = DOUBLE.replace("angle: 25 }\n  - { name: S7a", "angle: 25, fixed: true }\n  - { name: S7a");
    expect(fixed).not.toBe(DOUBLE);
    const { text } = retune(fileOf(fixed), 0, "holes");
    expect(numberAt(text, "holes.0.at")).toBe(303);
  });
});
