/** Lengths that the trade knows, predicted from designs that say nothing about lips and air. Each case has its source. */
import { describe, expect, it } from "vitest";
import { analyse } from "../../server/src/design/predict/analyse.js";
import { readDesign } from "../../server/src/document/read.js";
import {
  besideMiddle,
  deviation,
  foundInstruments,
  KNOWN,
  MAKERS,
  mean,
  offOf,
  offWithUprightLip,
} from "./wholeInstruments.js";

const sure = foundInstruments().filter(({ known }) => known.isFittedTo);

describe("whole instruments of well-known lengths", () => {
  it.each(sure.map((found) => [found.known.what, found] as const))("%s lies within its band", (_, found) => {
    expect(offOf(found)).toBeGreaterThan(-found.above);
    expect(offOf(found)).toBeLessThan(found.below);
  });

  it.each([
    ["notch", 10],
    ["transverse", 10],
    ["pan pipe", 10],
    ["duct", 10],
  ] as const)("of a %s are right on the mean within %s cents, and alike", (family, within) => {
    const own = sure.filter(({ known }) => known.family === family).map(offOf);
    expect(own.length).toBeGreaterThan(1);
    expect(Math.abs(mean(own))).toBeLessThan(within);
    // Rules and lengths good to ±1 % each.
    expect(deviation(own)).toBeLessThan(MAKERS + 3);
  });

  it.each(["notch", "transverse", "pan pipe", "duct"] as const)(
    "of a %s lie in the middle of their bands, as far as their sources are known",
    (family) => {
      const own = sure.filter(({ known }) => known.family === family).map(besideMiddle);
      expect(Math.abs(mean(own))).toBeLessThan(MAKERS / Math.sqrt(own.length));
    },
  );

  it("of a duct are unbiased with those from memory, too, and flat by more than chance with an upright lip", () => {
    const ducts = foundInstruments().filter(({ known }) => known.family === "duct" && !known.isDoubtful);
    const chance = (cents: readonly number[]) => deviation(cents) / Math.sqrt(cents.length);
    for (const each of [ducts.map(offOf), ducts.map(besideMiddle)])
      expect(Math.abs(mean(each))).toBeLessThan(chance(each));
    const upright = ducts.map(({ known }) => offWithUprightLip(known));
    expect(mean(upright)).toBeLessThan(-chance(upright));
  });

  it("rest on no number from memory, and on none that is doubtful", () => {
    for (const { grade, isFittedTo, isDoubtful } of KNOWN)
      if (isFittedTo) expect([grade === "M", isDoubtful]).toEqual([false, undefined]);
  });
});

describe("open flue pipes by the 5/3 rule", () => {
  // L = c/2f − 5/3 D from the languid, A. Cavaillé-Coll, 1860 (from memory); mouth a quarter of the girth, cut-up a quarter of that.
  const pipe = (note: string, hz: number, diameter: number) => {
    // Across, the chord of the quarter.
    const width = diameter * Math.sin(Math.PI / 4);
    const cutUp = (Math.PI * diameter) / 16;
    const length = (1e3 * 340.3) / (2 * hz) - (5 / 3) * diameter - cutUp / 2;
    const text = `borewright: 1
family: duct
key: ${note}
air: { temperature: 15, humidity: 0 }
mouth: { window: { width: ${width}, cutUp: ${cutUp}, chimney: 1.5, labium: 1 } }
bore: [ { at: 0, diameter: ${diameter} }, { at: ${length}, diameter: ${diameter} } ]
wall: 1
fingerings: [ { note: ${note} } ]
`;
    const [document] = readDesign(text, "yaml").documents;
    return document && analyse(document.resolution.instrument).fingerings[0]?.cents;
  };

  it.each([
    ["C3", 130.81, 100],
    ["G3", 196, 75],
    ["C4", 261.63, 60],
    ["C5", 523.25, 36],
  ])("%s of %s Hz and %s mm comes out flat, by no more than the jet may lift a blown pipe", (note, hz, diameter) => {
    const cents = pipe(note, hz, diameter) ?? Number.NaN;
    expect(cents).toBeLessThan(0);
    // A duct's band reaches 35 cents above what is predicted.
    expect(cents).toBeGreaterThan(-35);
  });
});

it("Boehm's schema of 1871 gives a scale within 35 cents, and right on the mean", () => {
  const found = foundInstruments().find(({ known }) => known.file === "boehm-c4");
  const notes = found?.notes.map(({ cents }) => cents) ?? [];
  expect(notes).toHaveLength(13);
  for (const cents of notes) expect(Math.abs(cents)).toBeLessThan(35);
  expect(Math.abs(mean(notes))).toBeLessThan(12);
});
