/**
 * Print scales for all keys. Outside values: the five-limit intervals of just intonation in cents, as any table of them has (16:15 is 111.73,
 * 9:8 203.91, 6:5 315.64, 5:4 386.31, 4:3 498.04, 45:32 590.22, 3:2 701.96, 8:5 813.69, 5:3 884.36, 9:5 1017.60, 15:8 1088.27).
 */
import { expect, it } from "vitest";
import { printScaleFactors } from "../../../server/src/design/rekey/keyTable.js";
import type { RekeyResult } from "../../../server/src/design/rekey/rekeyResult.js";
import { changeInWords, keysInWords } from "../../../server/src/design/rekey/rekeyWords.js";
import { checked, documentOf, fileOf } from "../../support/designs.js";
import { panPipe, vessel } from "../../support/families.js";
import { instrumentOf, tube } from "../../support/marked.js";
import { note } from "../../support/vessel.js";

const JUST = [111.73, 203.91, 315.64, 386.31, 498.04, 590.22, 701.96, 813.69, 884.36, 1017.6, 1088.27, 1200];
const RATIOS = ["15:16", "8:9", "5:6", "4:5", "3:4", "32:45", "2:3", "5:8", "3:5", "5:9", "8:15", "1:2"];
const tableOf = (text: string) => printScaleFactors(documentOf(fileOf(text)).resolution, checked(text).analysis);

it("has a row for every key within an octave, the highest and smallest first, with the pure interval beside it", () => {
  const table = tableOf(tube("mouth: ideal\nfingerings: [{ degree: 1, holes: '' }]\nprint: { scale: 110 % }\n"));
  expect(table.map(({ key }) => key.midi)).toEqual(Array.from({ length: 25 }, (_, i) => note("G5").midi - i));
  const own = table[12];
  expect(own?.pure).toBeUndefined();
  expect(own?.key.name).toBe("G4");
  for (const [i, row] of table.entries()) {
    expect(row.lengthMillimetres).toBeCloseTo(352 * 1.1 * (row.percent / 110), 6);
    const semitones = 12 - i;
    if (semitones === 0) continue;
    const steps = Math.abs(semitones) - 1;
    const [more = "", less = ""] = (RATIOS[steps] ?? "").split(":");
    expect(row.pure?.ratio).toBe(semitones > 0 ? `${more}:${less}` : `${less}:${more}`);
    const just = Math.sign(semitones) * (JUST[steps] ?? Number.NaN);
    expect(1200 * Math.log2(row.pure?.factor ?? 0)).toBeCloseTo(-just, 1);
    // Printed by the pure ratio it lands as far from the key's note as the ratio is from the size that is right.
    expect(row.pure?.cents).toBeCloseTo(1200 * Math.log2(row.percent / 110 / (row.pure?.factor ?? 0)), 6);
  }
  // A textbook tube is in tune an octave higher at about half its size, for the lengths of the mouth and foot grow along.
  expect((table[0]?.percent ?? 0) / (own?.percent ?? 1)).toBeCloseTo(0.5, 1);
});

it("leaves out keys that are no notes", () => {
  const low = tableOf(
    tube(
      "mouth: ideal\nkey: C0\nbore: [{ at: 0, diameter: 30 }, { at: 8000, diameter: 30 }]\nfingerings: [{ degree: 8, holes: '', register: 2 }]\n",
    ),
  );
  expect(low.length).toBeLessThan(25);
  expect(low.at(-1)?.key.midi).toBe(note("C0").midi);
});

const result = (
  by: RekeyResult["by"],
  moves: number,
  texts: readonly [string, string],
  more: Partial<RekeyResult> = {},
) =>
  ({
    by,
    factor: 1.12204,
    printScalePercent: 89.09,
    moves: Array.from({ length: moves }),
    before: { instrument: instrumentOf(texts[0]) },
    after: { instrument: instrumentOf(texts[1]) },
    ...more,
  }) as unknown as RekeyResult;

it("a change of key is told by its scale, its factor, or what has moved and how long it is now", () => {
  const long = (foot: number) => tube(`bore: [{ at: 0, diameter: 16 }, { at: ${foot}, diameter: 16 }]\n`);
  const texts = [long(352), long(380.5)] as const;
  expect(changeInWords(result("print-scale", 0, texts))).toBe("print at 89.09 %");
  expect(changeInWords(result("redraw", 3, texts))).toBe("every dimension 112.20 % of what it was");
  expect(changeInWords(result("refit", 9, texts))).toBe("9 dimensions changed, bore 352 mm → 380.5 mm");
  expect(changeInWords(result("refit", 1, [texts[0], texts[0]]))).toBe("1 dimension changed, bore stays 352 mm");
  expect(changeInWords(result("refit", 0, [texts[0], texts[0]]))).toBe("no dimensions changed, bore stays 352 mm");
  const pipes = panPipe("");
  expect(changeInWords(result("refit", 2, [pipes, pipes]))).toBe("2 dimensions changed, longest pipe stays 158 mm");
  const chamber = vessel("holes: [{ diameter: 6, angle: 90 }]");
  expect(changeInWords(result("refit", 2, [chamber, chamber]))).toBe("2 dimensions changed, chamber stays 90 mm");
  expect(keysInWords({ from: note("G4"), to: note("A4") }, "→")).toBe("G4 → A4");
  expect(keysInWords({ from: note("G4"), to: note("G4") }, "→")).toBe("G4");
});
