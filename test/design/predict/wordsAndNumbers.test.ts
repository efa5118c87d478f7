/** What is made of predictions: bands in words, the evenness of all, worked out by hand. */
import { describe, expect, it } from "vitest";
import { analyse } from "../../../server/src/design/predict/analyse.js";
import type { Band } from "../../../server/src/design/predict/band.js";
import {
  bandInWords,
  bandPartsInWords,
  bandSummary,
  reachInWords,
} from "../../../server/src/design/predict/bandWording.js";
import { evennessOf, impedanceCurve, responsesOf, strengthOf } from "../../../server/src/design/predict/response.js";
import { rivalOf } from "../../../server/src/design/predict/rival.js";
import { targetHzOf } from "../../../server/src/design/predict/target.js";
import { documentOf, fileOf, WHISTLE } from "../../support/designs.js";
import { tube } from "../../support/marked.js";

const analysisOf = (text: string) => analyse(documentOf(fileOf(text)).resolution.instrument);
const band = (below: number, above: number, changes: Partial<Band> = {}): Band => ({
  cents: Math.max(below, above),
  reach: { below, above },
  mostly: "mouth",
  together: 10,
  togetherReach: { below: 9.6, above: 10.4 },
  against: 4.4,
  ...changes,
});

describe("a band in words", () => {
  it("has one number where its sides read alike, and two where not", () => {
    expect(reachInWords({ below: 22.6, above: 23.4 })).toBe("±23");
    expect(reachInWords({ below: 12, above: 43 })).toBe("−12 to +43");
  });
  it.each([
    ["mouth", "the mouth"],
    ["shape", "the chamber's shape"],
    ["air", "the air"],
    ["print", "the print"],
    ["rival", "a second resonance"],
  ] as const)("names what it mostly comes from: %s", (mostly, words) => {
    expect(bandInWords(band(23, 23, { mostly }))).toBe(`±23 cents, mostly ${words}`);
  });
  it("and its parts, of one note and of all", () => {
    expect(bandInWords(band(0, 0, { mostly: undefined }))).toBe("±0 cents");
    expect(bandPartsInWords(band(23, 23))).toBe("all notes together ±10, this one against the others ±4");
    expect(bandSummary([undefined, band(20, 20, { against: 7 }), band(26, 26)])).toBe(
      "Good to ±20 to 26 cents, mostly the mouth: all notes together ±10, one against the others up to ±7.",
    );
    expect(bandSummary([band(26, 26), band(26.3, 26.3, { mostly: undefined })])).toBe(
      "Good to ±26 cents: all notes together ±10, one against the others up to ±4.",
    );
    expect(bandSummary([band(12, 43), band(12, 30)])).toBe(
      "Good to −12 to +43 cents, mostly the mouth: all notes together ±10, one against the others up to ±4.",
    );
    expect(bandSummary([undefined])).toBeUndefined();
  });
});

describe("numbers over all notes", () => {
  it("sum up what each is off", () => {
    const { fingerings, summary, tolerance } = analysisOf(WHISTLE);
    const cents = fingerings.map((each) => each.cents ?? Number.NaN);
    const sum = (values: readonly number[]) => values.reduce((all, each) => all + each, 0);
    expect(summary?.count).toBe(7);
    expect(summary?.meanCents).toBeCloseTo(sum(cents) / 7, 9);
    expect(summary?.rmsCents).toBeCloseTo(Math.sqrt(sum(cents.map((each) => each ** 2)) / 7), 9);
    expect(summary?.worstCents).toBe(cents[5]);
    expect(tolerance).toBe(10);
    expect(summary?.outOfTune).toBe(cents.filter((each) => Math.abs(each) > 10).length);
  });
  it("say how even they are, register by register", () => {
    const [first, ...rest] = evennessOf(analysisOf(WHISTLE));
    expect(rest).toEqual([]);
    const responses = responsesOf(analysisOf(WHISTLE)).slice(0, 6);
    const strengths = responses.map((each) => each?.strength ?? Number.NaN);
    const cutOffs = responses.flatMap((each) =>
      each?.cutOffs.length ? [Math.min(...each.cutOffs.map(({ frequency }) => frequency))] : [],
    );
    const spread = (values: readonly number[]) => {
      const mean = values.reduce((all, each) => all + each, 0) / values.length;
      return [mean, Math.sqrt(values.reduce((all, each) => all + (each - mean) ** 2, 0) / values.length)] as const;
    };
    expect(first).toMatchObject({ register: 1, notes: 6 });
    expect([first?.meanStrength, first?.strengthSpread]).toEqual(
      spread(strengths).map((each) => expect.closeTo(each, 9)),
    );
    const [mean, deviation] = spread(cutOffs);
    expect(cutOffs.length).toBeGreaterThan(1);
    expect([first?.meanCutOff, first?.cutOffSpread]).toEqual([
      expect.closeTo(mean, 6),
      expect.closeTo(deviation / mean, 9),
    ]);
  });
  it("count strength in decibels of what is left at the resonance", () => {
    // A tenth of the impedance is 20 dB.
    expect(strengthOf({ resistance: 0.1, quality: 30 })).toEqual({ strength: 20, quality: 30 });
    expect(strengthOf({ resistance: 0, quality: 30 }).strength).toBe(120);
  });
  it("draw the impedance from one frequency to another in equal ratios, least at the note", () => {
    const analysis = analysisOf(WHISTLE);
    const hz = analysis.fingerings[0]?.predictedHz ?? 0;
    const curve = impedanceCurve(analysis, 0, { from: hz / 1.1, to: hz * 1.1, points: 201 });
    expect(curve).toHaveLength(201);
    expect(curve[0]?.frequency).toBeCloseTo(hz / 1.1, 9);
    expect(curve[200]?.frequency).toBeCloseTo(hz * 1.1, 9);
    expect(curve[100]?.frequency).toBeCloseTo(hz, 9);
    const least = curve.reduce((low, each) => (each.decibels < low.decibels ? each : low));
    expect(Math.abs(least.frequency / hz - 1)).toBeLessThan(0.003);
    expect(curve[100]?.phase).toBeCloseTo(0, 0);
    expect([Math.sign(curve[50]?.phase ?? 0), Math.sign(curve[150]?.phase ?? 0)]).toEqual([-1, 1]);
    expect(impedanceCurve(analysis, 9, { from: 100, to: 200, points: 3 })).toEqual([]);
  });
});

it("another resonance competes that leaves at most twice the resistance, and is the stronger that leaves less", () => {
  const with_ = (resistance: number) =>
    rivalOf({
      resonance: { frequency: 400, resistance: 0.1, quality: 30, rival: { frequency: 800, resistance } } as never,
    });
  expect(with_(0.2)).toEqual({ frequency: 800, cents: 1200, isStronger: false });
  expect(with_(0.21)).toBeUndefined();
  expect(with_(0.09)?.isStronger).toBe(true);
  expect(with_(0.1)?.isStronger).toBe(false);
  expect(rivalOf({ resonance: undefined })).toBeUndefined();
});

it("a target is lower by what is left for the bench and to the breath", () => {
  const hz = (more: string, index: number) => {
    const { fingerings, ...instrument } = documentOf(
      fileOf(
        tube(
          `key: A4\nholes: [{ at: 200, diameter: 7 }]\nfingerings: [{ note: A4, holes: ● }, { note: A4, holes: ○ }, { note: A4, holes: ◐ }]\n${more}`,
        ),
      ),
    ).resolution.instrument;
    const fingering = fingerings[index];
    return fingering && targetHzOf(fingering, instrument);
  };
  const flat = "bench: { holesFlat: 25, lengthFlat: 16 }\n";
  expect(hz("", 0)).toBe(440); // ISO 16
  expect(hz(flat, 0)).toBeCloseTo(440 * 2 ** (-16 / 1200), 9);
  expect(hz(flat, 1)).toBeCloseTo(440 * 2 ** (-25 / 1200), 9);
  expect(hz(flat, 2)).toBeCloseTo(440 * 2 ** (-25 / 1200), 9);
});
