/** What is asked twice is done once: the same rekey or refit again changes nothing, and none leaves a design worse. */

import { readFileSync } from "node:fs";
import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { nameOfFingering } from "../../../server/src/design/predict/governing.js";
import { retune } from "../../../server/src/design/refit/rekeyByRefit.js";
import { restOf } from "../../../server/src/design/refit/rest.js";
import { rekey } from "../../../server/src/design/rekey/rekey.js";
import { CannotRekey, REKEY_METHODS, type RekeyResult } from "../../../server/src/design/rekey/rekeyResult.js";
import type { DesignFile } from "../../../server/src/document/designFile.js";
import { sharedColumn } from "../../../server/src/instrument/body.js";
import { parseNote } from "../../../server/src/music/note.js";
import { fileOf, WHISTLE } from "../../support/designs.js";
import { instrumentTexts } from "../../support/instruments.js";

const NOTE = parseNote("A4");

/** Undefined where the design cannot be moved there. */
function done(work: () => RekeyResult): RekeyResult | undefined {
  try {
    return work();
  } catch (error) {
    if (error instanceof CannotRekey) return undefined;
    throw error;
  }
}

const to = (file: DesignFile, by: (typeof REKEY_METHODS)[number]) => {
  if (NOTE === undefined) throw new Error("no note");
  return rekey(file, 0, NOTE, by);
};

describe.each(REKEY_METHODS)("the same rekey by %s again", (by) => {
  it("changes nothing in a whistle", () => {
    const first = to(fileOf(WHISTLE), by);
    expect(to(fileOf(first.text), by).text).toBe(first.text);
  });
});

it("the same rekey by print-scale again changes nothing in any instrument", () => {
  fc.assert(
    fc.property(instrumentTexts, (text) => {
      const first = done(() => to(fileOf(text), "print-scale"));
      if (first !== undefined) expect(to(fileOf(first.text), "print-scale").text).toBe(first.text);
    }),
    { numRuns: 20 },
  );
});

it("a redraw of any instrument leaves the notes right on average within half a cent, or says how far off; again it changes nothing", () => {
  fc.assert(
    fc.property(instrumentTexts, (text) => {
      const first = done(() => to(fileOf(text), "redraw"));
      if (first === undefined) return;
      const mean = first.after.summary?.meanCents ?? 0;
      if (Math.abs(mean) > 0.5) expect(first.remarks.join()).toMatch(/rounding leaves the notes .* on average/);
      expect(to(fileOf(first.text), "redraw").text).toBe(first.text);
    }),
    { numRuns: 20 },
  );
});

/** One hole must be wider than a fingertip: what comes nearest within the limits is farther off than what is drawn. */
const HELD_BACK = `borewright: 1
family: rim
key: G4
temperament: just
tolerance: 8
units: in
mouth: { cover: 0.70 }
bore: [ { at: 0, diameter: 0.812 }, { at: 7.2177, diameter: 0.812 }, { at: 18.6443, diameter: 0.812 } ]
wall: 0.1444
holes: [ { name: L1, at: 8.6072, diameter: 0.3609 }, { name: L2, at: 10.0011, diameter: 0.406 } ]
fingerings: [ { note: G4, holes: ●● }, { note: E5, holes: ●○ }, { note: "F#5", holes: ○○ } ]
print: { shrinkage: 0.2 % }
`;

/** One refit leaves it 1177 cents off, the next from there 696. */
const FAR_OFF = `borewright: 1
family: vessel
key: C4
temperament: just
print: { scale: 110 %, shrinkage: 0.3 %, holeUndersize: 0.15, rounding: 0.05 }
hands: { reach: 22.6, fingertip: 7 }
mouth: { window: { width: 10.4, cutUp: 1.9 } }
vessel: { shape: tube, length: 24, diameter: 24.9 }
wall: 2.5
holes: [ { name: H1, diameter: 4.2, at: 3 }, { name: H2, diameter: 10.4, at: 6 }, { name: H3, diameter: 2.1, at: 9 } ]
fingerings: [ { degree: 2, holes: ●●○ }, { degree: 8, holes: ●●● }, { degree: 3, holes: ●○○ } ]
`;

/** The right length for A4 lies halfway between two steps of the drawing. */
const HALFWAY = `borewright: 1
family: panpipe
key: D5
temperament: meantone
print: { scale: 93.5 %, shrinkage: 0.3 %, holeUndersize: 0, rounding: 0.1 }
pipes: [ { note: G5, length: 53.7, diameter: 5.8 }, { note: D4, length: 400, diameter: 22 }, { note: C5, length: 92.2, diameter: 22 } ]
`;

describe("a design brought into tune", () => {
  it("stays as it is where nothing within the limits is closer, and says so", () => {
    const result = retune(fileOf(HELD_BACK), 0, "holes");
    expect(result.text).toBe(HELD_BACK);
    expect(result.moves).toEqual([]);
    expect(result.remarks.join("\n")).toMatch(/Nothing is changed: .*worst 359 cents flat/);
  });

  it.each([
    ["all", (text: string) => retune(fileOf(text), 0, "all")],
    ["holes", (text: string) => retune(fileOf(text), 0, "holes")],
    ["into another key", (text: string) => to(fileOf(text), "refit")],
  ] as const)(
    "is never worse than it was, on the whole or by its worst note, but for notes named as left aside; the same again changes nothing: %s",
    (way, refit) => {
      fc.assert(
        fc.property(instrumentTexts, (text) => {
          const result = done(() => refit(text));
          if (result === undefined) return;
          expect(refit(result.text).text).toBe(result.text);
          const named = result.after.fingerings.flatMap((each, index) =>
            result.remarks.some((remark) => remark.startsWith(`${nameOfFingering(each)} cannot be reached: `))
              ? [index]
              : [],
          );
          const [before, after] = [result.before, result.after].map((each) => restOf(each, named).summary);
          if (way === "into another key" || before === undefined || after?.count !== before.count) return;
          expect(Math.abs(after.worstCents)).toBeLessThanOrEqual(Math.abs(before.worstCents) + 0.05);
          expect(after.rmsCents).toBeLessThanOrEqual(before.rmsCents + 0.05);
        }),
        { numRuns: 12, examples: [[HELD_BACK], [FAR_OFF], [HALFWAY]] },
      );
    },
  );
});

it("a refit moves a step of the bore as one edge", () => {
  const stepped = WHISTLE.replace(
    "  - { at: 394.1, diameter: =tube }",
    "  - { at: 150, diameter: 16 }\n  - { at: 150, diameter: 15.6 }\n  - { at: 394.1, diameter: 15.6 }",
  );
  const { after, obstacles } = retune(fileOf(stepped), 0, "all");
  const { bore = [] } = sharedColumn(after.instrument.body) ?? {};
  expect(bore[2]?.x).toBe(bore[1]?.x);
  expect(obstacles).toEqual([]);
});

it("a retune of a tapered flute leaves little that another would bring nearer", () => {
  // After the first refit, one step toward the worst note gains half a cent, three gain seven.
  const flute = fileOf(readFileSync(new URL("../../jobs/transverse.bore.yaml", import.meta.url), "utf8"));
  const first = retune(flute, 0, "all");
  const second = retune(fileOf(first.text), 0, "all");
  const worst = ({ after }: RekeyResult) => Math.abs(after.summary?.worstCents ?? Number.NaN);
  expect(worst(first) - worst(second)).toBeLessThan(2);
});
