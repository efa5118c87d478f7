/** An estimated breath in words. Outside values: a millimetre of water is 9.80665 Pa (conventional unit). */
import { describe, expect, it } from "vitest";
import type { Breath, NoteBreath } from "../../../server/src/design/predict/breath.js";
import {
  airText,
  breathCaveat,
  breathText,
  needMoreText,
  noteBreathText,
  slopeText,
  voicingText,
} from "../../../server/src/design/predict/breathWording.js";

const NOTE: NoteBreath = {
  from: 49,
  ordinary: 147,
  centsPerTenth: 2.94,
  leavesAt: undefined,
  inTuneAt: undefined,
  air: 61.4e-6,
  needsMore: false,
};
const breath = (notes: readonly (NoteBreath | undefined)[], more: Partial<Breath> = {}): Breath => ({
  notes,
  lowest: 0,
  rise: undefined,
  lips: false,
  assumed: [],
  isNoJet: false,
  ...more,
});

const MM = { unitMillimetres: 1 };

describe("a breath in words", () => {
  it("is given in millimetres of water and in pascals, to two digits", () => {
    expect([breathText(98.0665), breathText(1234), breathText(4.44)]).toEqual([
      "10 mm (98 Pa)",
      "130 mm (1200 Pa)",
      "0.45 mm (4.4 Pa)",
    ]);
    expect([airText(61.4e-6), slopeText(2.94)]).toEqual(["61", "+2.9"]);
  });
  it("says of a note where it speaks, its ordinary breath and how it rises", () => {
    // From 1/1.7 to 1.7 times; a register is left within a factor of 2.
    const text = "speaks from 5 mm (49 Pa) of water; ordinary breath 15 mm (150 Pa), 86 to 250 Pa";
    expect(noteBreathText(breath([NOTE]), 0, "G4")).toBe(`${text}; +2.9 cents for a tenth more breath`);
    const needing = { ...NOTE, centsPerTenth: undefined, leavesAt: 300, inTuneAt: 98.0665, needsMore: true };
    const rest = "may leave the register from 150 to 600 Pa; needs more breath than its neighbours";
    expect(noteBreathText(breath([NOTE, needing]), 1, "G4")).toBe(
      `${text}; silent there; in tune with G4 at 10 mm (98 Pa); ${rest}`,
    );
    // The lowest note is what others are in tune with.
    expect(noteBreathText(breath([needing]), 0, "G4")).toBe(`${text}; silent there; ${rest}`);
    expect(noteBreathText(breath([undefined]), 0, "G4")).toBeUndefined();
  });
  it("says how sure it is, and what was assumed", () => {
    const plain =
      "An estimate by a model of the jet, in mm of water: pressures within a factor of 1.7 either way, cents within 35 %; comparisons between notes are surer.";
    expect(breathCaveat(breath([]))).toBe(plain);
    expect(breathCaveat(breath([], { assumed: ["windway 1 mm high", "lips"] }))).toBe(
      `${plain} Assumed, because the design does not say: windway 1 mm high, lips.`,
    );
    expect(breathCaveat(breath([], { assumed: ["lips"], isNoJet: true, lips: true }))).toBe(
      `${plain} With still lips: a player moves them from note to note. Assumed, because the design does not say, or states sizes that cannot form a jet: lips.`,
    );
    expect(breathCaveat(breath([], { rise: { note: "G4" } as never }))).toBe(
      `${plain} How the notes rise with the breath is taken from G4, as measured.`,
    );
  });
  it("names the notes that need more of it", () => {
    const needing = { ...NOTE, needsMore: true };
    const names = (index: number) => ["G4", "A4", "B4"][index] ?? "";
    expect(needMoreText(breath([NOTE, undefined]), names)).toBeUndefined();
    expect(needMoreText(breath([NOTE, needing]), names)).toBe("A4 needs more breath than its neighbours.");
    expect(needMoreText(breath([needing, needing, needing]), names)).toBe(
      "G4, A4 and B4 need more breath than their neighbours.",
    );
  });
  it("says what another windway or cut-up would do to the lowest note", () => {
    const after = { ...NOTE, from: 98.0665, ordinary: 196.133, centsPerTenth: 1.5, air: 80e-6 };
    expect(voicingText({ size: "cutUp", step: 0.0005, before: NOTE, after }, "G4", MM)).toBe(
      "Cut-up 0.5 mm longer: G4 speaks from 10 mm (98 Pa), ordinary breath 15 mm (150 Pa) → 20 mm (200 Pa), +2.9 → +1.5 cents for a tenth more breath, air 61 → 80 ml/s.",
    );
    expect(
      voicingText({ size: "height", step: 0.0001, before: NOTE, after: { ...NOTE, from: 98.0665 } }, "G4", MM),
    ).toBe(
      "Windway 0.1 mm higher: G4 speaks from 10 mm (98 Pa), ordinary breath still 15 mm (150 Pa), +2.9 cents for a tenth more breath, air 61 → 61 ml/s.",
    );
    const silent = { ...NOTE, centsPerTenth: undefined };
    expect(voicingText({ size: "height", step: 0.0001, before: silent, after: NOTE }, "G4", MM)).toContain(
      "– → +2.9 cents",
    );
    // 0.5 mm and 0.1 mm in inches of 25.4 mm.
    const inches = (size: "cutUp" | "height", step: number) =>
      voicingText({ size, step, before: NOTE, after: NOTE }, "G4", { unitMillimetres: 25.4 });
    expect(inches("cutUp", 0.0005)).toContain("Cut-up 0.02 in longer: ");
    expect(inches("height", 0.0001)).toContain("Windway 0.004 in higher: ");
  });
});
