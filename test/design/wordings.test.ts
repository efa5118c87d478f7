/** What work, calibration, bands and sizes come to in words: the same in editor and command line, said in the design's own unit. */
import { describe, expect, it } from "vitest";
import type { BenchPlan, BenchStep } from "../../server/src/design/bench/plan.js";
import { airInWords, leftInWords, rulesOfWork, stepInWords, whole } from "../../server/src/design/bench/wording.js";
import type { Calibration } from "../../server/src/design/calibrate/calibrate.js";
import { calibrationInWords, closingLines, fittedLines } from "../../server/src/design/calibrate/wording.js";
import type { Band } from "../../server/src/design/predict/band.js";
import { bandInWords, bandPartsInWords, bandSummary } from "../../server/src/design/predict/bandWording.js";
import type { AtSize } from "../../server/src/design/scale/atSize.js";
import { sizeInWords } from "../../server/src/design/scale/inWords.js";
import {
  breathInWords,
  centsInWords,
  deviationInWords,
  drawnDecimals,
  drawnFlatInWords,
  drawnLength,
  signedCents,
  toDrawn,
} from "../../server/src/design/wording.js";
import { panPipe, vessel } from "../support/families.js";
import { instrumentOf, tube } from "../support/marked.js";
import { note } from "../support/vessel.js";

const MM = instrumentOf(tube("print: { scale: 50 % }"));
const INCHES = instrumentOf(tube("units: in\nwall: 0.125"));

describe("a step of the bench", () => {
  const notes = [
    { name: "A4", reading: -13.4, right: 0 },
    { name: "A5", reading: 10.6, right: 0 },
  ];
  const step = (kind: BenchStep["kind"], more: Partial<BenchStep> = {}) =>
    ({ kind, name: "R3", from: 0.0065, to: 0.0069, stop: 0.0072, notes, ...more }) as BenchStep;
  it.each([
    ["open", "open R3 by 0.4 mm, to 6.9 mm"],
    ["undercut", "undercut R3 by 0.4 mm, so that at the bore it is 6.9 mm wider than outside"],
    ["shorten", "shorten R3 by 0.4 mm, to 6.9 mm"],
    ["cut-up", "cut up R3 at its blade by 0.4 mm, to 6.9 mm"],
    ["widen", "widen R3 by 0.4 mm, to 6.9 mm"],
    ["lengthen", "open R3 along the tube by 0.4 mm, to 6.9 mm, by the same amount at both ends"],
    ["bush", "bush R3: glue in a sleeve, and open it to 6.9 mm"],
  ] as const)("%s", (kind, says) => {
    expect(stepInWords(step(kind), MM)).toBe(`${says}; then A4 should read −13, A5 +11 (not beyond 7.2 mm)`);
  });
  it("speaks of the finished size in the design's unit, and of a stop where that is another number", () => {
    expect(stepInWords(step("open", { stop: 0.006925, notes: notes.slice(0, 1) }), INCHES)).toBe(
      "open R3 by 0.016 in, to 0.272 in; then A4 should read −13",
    );
    expect(stepInWords(step("open", { from: 0.0073, notes: [] }), MM)).toBe(
      "open R3 by 0.4 mm, to 6.9 mm; then measure again (not beyond 7.2 mm)",
    );
  });
  it.each([
    [0.49, "0"],
    [-0.49, "0"],
    [0.51, "+1"],
    [-1.6, "−2"],
  ])("a needle at %f shows %s", (cents, says) => expect(whole(cents)).toBe(says));
});

describe("a plan of the bench", () => {
  const plan = (more: object) =>
    ({ workshop: 19, temperature: 22, pitchStandard: 442, left: [], ...more }) as unknown as BenchPlan;
  it("says of the air what the tuner reads in, and what it is to be in tune in", () => {
    expect(airInWords(plan({}))).toBe("Readings at 19 °C, it is to be in tune at 22 °C; tuner's A4 at 442 Hz.");
    expect(airInWords(plan({ workshop: 22 }))).toBe(
      "Readings at 22 °C, where it is to be in tune; tuner's A4 at 442 Hz.",
    );
  });
  it("says why a note is left as it is", () => {
    const a = { name: "A4", reading: 12.2, right: 0 };
    const left = (more: object) => leftInWords(plan({ left: [{ notes: [a], off: 9.04, unsure: 6.4, ...more }] }));
    expect(left({ why: "no-tool" })).toEqual([
      "A4 reads +12; with the rest done it lies 9.0 cents sharp: no work on the bench lowers that: print the part again, or state the size it has.",
    ]);
    expect(left({ why: "no-tool", off: -9.04 })).toEqual([
      "A4 reads +12; with the rest done it lies 9.0 cents flat: no hole or length that can be worked on at the bench decides that.",
    ]);
    expect(left({ why: "limit", off: -30, notes: [a, { name: "A5", reading: -3, right: 0 }] })).toEqual([
      "A4 reads +12, A5 reads −3; with the rest done they lie 30 cents flat: fingertip, wall, bore or the design's limits leave nothing more to cut; calibrate and print again.",
    ]);
    expect(left({ why: "unsure" })).toEqual([
      "A4 reads +12; with the rest done it lies 9.0 cents sharp: closer than the measurement is certain, ±6 cents: play it more often and state `uncertainty`.",
    ]);
    expect(left({ why: "apart", notes: [a, { name: "A5", reading: -3, right: 0 }] })).toEqual([
      "A4 reads +12, A5 reads −3; their registers lie 9.0 cents apart, and one size moves both: another print, with the hole elsewhere, brings them nearer.",
    ]);
  });
  it("asks for readings first where there are none", () => {
    const [first, ...rest] = rulesOfWork(plan({ isMeasured: false, steps: [{}] }));
    expect(first).toMatch(/^Nothing is measured yet/);
    expect(rulesOfWork(plan({ isMeasured: true, steps: [{}] }))).toEqual(rest);
    expect(rest.join(" ")).toMatch(/^Go from the first to the last, .* What is cut off cannot be put back: /);
  });
});

describe("a calibration", () => {
  const fitted = [
    { quantity: "mouth", path: ["mouth", "extra"], before: 0, after: -1.24, decimals: 2 },
    { quantity: "temperature", path: ["air", "temperature"], before: 20, after: 17.5, decimals: 1 },
    { quantity: "shrinkage", path: ["print", "shrinkage"], before: 0.3, after: 0.4, decimals: 1 },
    { quantity: "undersize", path: ["print", "holeUndersize"], before: 0.1, after: 0.1, decimals: 2 },
  ];
  const notes = [
    { name: "A4", residualCents: 1.2 },
    { name: "B4", residualCents: -3.46 },
  ];
  const all = { fitted, notes, unused: [], rmsBeforeCents: 21.04, rmsResidualCents: 2.06 } as unknown as Calibration;
  it("names what was fitted, and each value in its unit", () => {
    expect(calibrationInWords(all, INCHES)).toBe(
      "the mouth and the air's temperature and the shrinkage and the holes' undersize to the measured notes (extra −1.24 in, 17.5 °C, 0.4 %, holeUndersize 0.1 in; residual 2.1 cents)",
    );
    expect(calibrationInWords({ ...all, fitted: all.fitted.slice(0, 1) }, instrumentOf(panPipe("")))).toBe(
      "the mouth of all pipes to the measured notes (extra −1.24 mm; residual 2.1 cents)",
    );
  });
  it("lists what changed", () => {
    expect(fittedLines(all, MM)).toEqual([
      "mouth.extra: 0 → -1.24 mm",
      "air.temperature: 20 → 17.5 °C",
      "print.shrinkage: 0.3 → 0.4 %",
    ]);
    expect(fittedLines(all, instrumentOf(panPipe("")))[0]).toBe("mouth.extra: 0 → -1.24 mm, alike for all pipes");
    const undersize = { ...all, fitted: [{ ...fitted[3], after: 0.2 }] } as unknown as Calibration;
    expect(fittedLines(undersize, INCHES)).toEqual(["print.holeUndersize: 0.1 → 0.2 in"]);
  });
  it("closes with what is left, what air would do better, and what was not used", () => {
    const [line, ...none] = closingLines(all, MM);
    expect(line).toBe("2 measured notes: 21.0 cents off before (root mean square), 2.1 left; B4 is left at −3.5.");
    expect(none).toEqual([]);
    expect(closingLines({ ...all, notes: all.notes.slice(0, 1) }, MM)[0]).toMatch(
      /^1 measured note: .*A4 is left at \+1\.2\.$/,
    );
    expect(closingLines({ ...all, notes: [] }, MM)[0]).toMatch(/ left\.$/);
    const withAir = { ...all, rmsResidualCents: 0.84 };
    const unused = [
      ["measured", 1, "note"],
      ["measured", 2, "note"],
    ];
    expect(closingLines({ ...all, withAir, unused }, MM).slice(1)).toEqual([
      "Was it 17.5 °C rather than 20? That would leave 0.8 cents instead of 2.1. If you did not measure the temperature, `calibrate --fit-air` assumes that.",
      "Not used, because the design has no such fingering: `note` of measured note 2, `note` of measured note 3.",
    ]);
    expect(closingLines({ ...all, unused }, instrumentOf(panPipe(""))).at(-1)).toMatch(
      /^Not used, because the design has no such pipe: /,
    );
    expect(closingLines({ ...all, unused }, instrumentOf(vessel(""))).at(-1)).toMatch(/no such fingering: /);
  });
});

describe("a band", () => {
  const band = (below: number, above: number, more: Partial<Band> = {}): Band => ({
    cents: Math.max(below, above),
    reach: { below, above },
    mostly: "mouth",
    together: above - 2,
    togetherReach: { below: below - 2, above: above - 2 },
    against: 8.6,
    ...more,
  });
  it("reads alike on both sides or not, in whole cents, with its largest source", () => {
    expect(bandInWords(band(22.6, 23.4))).toBe("±23 cents, mostly the mouth");
    expect(bandInWords(band(12, 43, { mostly: undefined }))).toBe("−12 to +43 cents");
    expect(bandInWords(band(23, 23, { mostly: "shape" }))).toBe("±23 cents, mostly the chamber's shape");
    expect(bandInWords(band(23, 23, { mostly: "rival" }))).toBe("±23 cents, mostly a second resonance");
    expect(bandInWords(band(23, 23, { mostly: "air" }))).toBe("±23 cents, mostly the air");
    expect(bandInWords(band(23, 23, { mostly: "print" }))).toBe("±23 cents, mostly the print");
    expect(bandPartsInWords(band(23, 23))).toBe("all notes together ±21, this one against the others ±9");
  });
  it("of all notes is the widest, or from the least to it", () => {
    const notes = [band(20, 20), undefined, band(30, 30, { against: 12 }), band(25, 25)];
    expect(bandSummary(notes)).toBe(
      "Good to ±20 to 30 cents, mostly the mouth: all notes together ±28, one against the others up to ±12.",
    );
    expect(bandSummary([band(30, 30), band(30.2, 30.2)])).toMatch(/^Good to ±30 cents, mostly/);
    expect(bandSummary([band(20, 20), band(10, 30, { mostly: undefined })])).toBe(
      "Good to −10 to +30 cents: all notes together −8 to +28, one against the others up to ±9.",
    );
  });
});

describe("a size", () => {
  const keys = [
    { key: note("F4"), percent: 125.9921 },
    { key: note("F#4"), percent: 118.9207 },
  ];
  const at = (plays: object | undefined) => sizeInWords({ percent: 125, plays, keys } as unknown as AtSize);
  it("says what it plays, and what the keys beside would be", () => {
    const sizes = "; F4 would be 125.99 %, F#4 118.92 %";
    expect(at({ key: note("F4"), cents: 13.72, between: [note("F4"), note("F#4")] })).toBe(
      `printed at 125 % it plays F4 +13.7 cents, between F4 and F#4${sizes}`,
    );
    expect(at({ key: note("F4"), cents: 0.01 })).toBe(`printed at 125 % it plays F4 0.0 cents, on the note${sizes}`);
    expect(at(undefined)).toBe("printed at 125 % it plays nothing that can be predicted");
  });
});

describe("numbers in messages", () => {
  it.each([
    [0.04, "in tune", "0.0"],
    [-0.06, "0.1 cents flat", "−0.1"],
    [4.24, "4.2 cents sharp", "+4.2"],
    [-9.96, "10.0 cents flat", "−10.0"],
    [10.4, "10 cents sharp", "+10.4"],
  ])("%f", (cents, deviation, signed) => {
    expect([deviationInWords(cents), signedCents(cents)]).toEqual([deviation, signed]);
  });
  it("say what is left for the bench and for the breath", () => {
    expect(drawnFlatInWords({ drawnFlat: { holes: 12, length: 8.5, room: 0 } })).toBe(
      "Drawn flat for the bench, and the targets with it: notes with an open hole 12 cents, notes of the whole length 8.5 cents.",
    );
    expect(drawnFlatInWords({ drawnFlat: { holes: 0, length: 0, room: 20 } })).toBe("");
    const breath = (...cents: number[]) => breathInWords({ fingerings: cents.map((breath) => ({ breath })) } as never);
    expect(breath(0, 0)).toBe("");
    expect(breath(-6, 3, 9)).toMatch(/bends notes by −6\.0 to \+9\.0 cents\.$/);
    expect(breath(4)).toMatch(/by 0\.0 to \+4\.0 cents/);
    expect(breath(-4)).toMatch(/by −4\.0 to 0\.0 cents/);
  });
  it("are lengths as drawn, on a step of the drawing", () => {
    expect(drawnLength(0.00432, MM)).toBe("8.6 mm");
    expect(drawnLength(0.00432, INCHES)).toMatch(/^0\.17\d* in$/);
    const steps = (rounding: number) => ({ ...MM, rounding });
    expect([1, 0.1, 0.05, 0.025, 0.00001].map((rounding) => drawnDecimals(steps(rounding)))).toEqual([0, 1, 2, 3, 4]);
    expect([toDrawn(8.66, steps(0.5)), toDrawn(8.66, steps(0.05))]).toEqual([8.5, 8.65]);
    expect(centsInWords(9.99)).toBe("10.0 cents");
  });
});
