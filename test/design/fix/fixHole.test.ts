/** What a fix promises is what its text sounds like; what is no nearer is not offered. */
import { describe, expect, it } from "vitest";
import { drained } from "../../../server/src/acoustics/steps.js";
import { constraintsOf } from "../../../server/src/design/constraints/constraints.js";
import { allowedHoleSteps } from "../../../server/src/design/fix/allowedChange.js";
import { fixesFor } from "../../../server/src/design/fix/fixHole.js";
import { analyse } from "../../../server/src/design/predict/analyse.js";
import { besideShift } from "../../../server/src/design/rekey/commonShift.js";
import { applyEdits } from "../../../server/src/document/edits.js";
import { documentOf, fileOf } from "../../support/designs.js";
import { numberAt, tube } from "../../support/marked.js";

/** Cents: finer than the steps, so that a change seldom ends on its note. */
const TOLERANCE = 0.5;
/** Drawn at half the size of the print, in coarse steps. */
const text = (at: number, rounding: number, more = "") =>
  tube(
    `key: G3\ntolerance: ${TOLERANCE}\nhands: { spacing: 1, fingertip: 60, reach: 400 }\nbore: [{ at: 0, diameter: 16 }, { at: 100, diameter: 16 }, { at: 425, diameter: 16 }]\nholes: [{ at: ${at}, diameter: 7 }]\nfingerings: [{ note: G3, holes: ● }, { note: B3, holes: ○ }]\nprint: { scale: 200 %, holeUndersize: 0.4, rounding: ${rounding} }\n${more}`,
  );
const analysisOf = (design: string) => analyse(documentOf(fileOf(design)).resolution.instrument);
const cents = (design: string) => analysisOf(design).fingerings.map((each) => each.cents ?? Number.NaN);
/** As messages round: tenths below ten. */
const inWords = (off: number) => `${Math.abs(off).toFixed(Math.abs(off) < 9.95 ? 1 : 0)} cents`;
const fixesOf = (design: string, hole: number | undefined, fingering: number, beside?: number) => {
  const document = documentOf(fileOf(design));
  const analysis = analyse(document.resolution.instrument);
  return fixesFor(
    document,
    beside === undefined ? analysis : besideShift(analysis, beside),
    hole,
    fingering,
    beside,
  ).map(({ title, edits, ...fix }) => ({ ...fix, title, after: applyEdits(design, edits) }));
};

describe("a fix of a hole", () => {
  it.each([
    [300, 0.1],
    [300, 1],
    [330, 1],
    [320, 0.7],
  ])("at %d mm in steps of %d mm says what its text leaves", (at, rounding) => {
    const design = text(at, rounding);
    const before = cents(design);
    const fixes = fixesOf(design, 0, 1);
    if (rounding < 1)
      expect(fixes.map(({ kind, hole, fingering }) => [kind, hole, fingering])).toEqual([
        ["move", 0, 1],
        ["resize", 0, 1],
      ]);
    for (const { title, after } of fixes) {
      const left = cents(after)[1] ?? Number.NaN;
      const promise =
        Math.abs(left) <= TOLERANCE
          ? "so that B3 is in tune"
          : `which leaves B3 ${inWords(left)} ${left < 0 ? "flat" : "sharp"}`;
      expect(title).toContain(`, ${promise}`);
      expect(Math.abs(left)).toBeLessThan(Math.abs(before[1] ?? 0));
    }
  });

  it("draws the place and the width that are allowed", () => {
    const design = text(300, 0.5);
    const document = documentOf(fileOf(design));
    const analysis = analyse(document.resolution.instrument);
    const { changes } = drained(allowedHoleSteps(analysis, constraintsOf(document), 0, 1));
    const [moved, resized] = fixesOf(design, 0, 1);
    expect(numberAt(moved?.after ?? "", "holes.0.at")).toBeCloseTo(((changes[0]?.value ?? 0) * 1e3) / 2, 9);
    expect(numberAt(resized?.after ?? "", "holes.0.diameter")).toBeCloseTo(
      ((changes[1]?.value ?? 0) * 1e3 + 0.4) / 2,
      9,
    );
    expect([moved?.title, resized?.title]).toEqual([
      expect.stringMatching(/^Move hole 1 [\d.]+ mm toward the foot, /),
      expect.stringMatching(/^Narrow hole 1 to [\d.]+ mm, /),
    ]);
    expect([moved?.preferred, resized?.preferred]).toEqual([false, true]);
  });

  it("is not offered where the next step of the drawing is no nearer", () => {
    // Right lies near 314.2 mm: of whole millimetres the present one is the nearest.
    expect(Math.abs(cents(text(314, 1))[1] ?? 0)).toBeGreaterThan(TOLERANCE);
    expect(fixesOf(text(314, 1), 0, 1).map(({ kind }) => kind)).not.toContain("move");
  });

  it("is told relative to notes that are off together", () => {
    const others = -200;
    const outcomes = new Set<string | undefined>();
    for (const [at, rounding] of [
      [330, 0.1],
      [330, 1],
      [300, 0.7],
      [300, 0.9],
    ] as const) {
      const design = text(at, rounding);
      for (const { title, after } of fixesOf(design, 0, 1, others)) {
        const left = (cents(after)[1] ?? Number.NaN) - others;
        const outcome = Math.abs(left) <= TOLERANCE ? "so that" : left < 0 ? "flatter" : "sharper";
        outcomes.add(outcome);
        expect(title).toContain(
          outcome === "so that"
            ? ", so that B3 is in tune with the others"
            : `, which leaves B3 ${inWords(left)} ${outcome} than the others`,
        );
        expect(title).not.toContain(", but ");
      }
    }
    expect([...outcomes].sort()).toEqual(["flatter", "sharper", "so that"]);
  });

  it("moves two holes under one finger alike", () => {
    const pair = (at: number) =>
      text(
        at,
        0.5,
        `holes: [{ at: ${at}, diameter: 3, angle: -14 }, { at: ${at + 1}, diameter: 3, angle: 14 }]\nfingerings: [{ note: G3, holes: ●● }, { note: B3, holes: ○○ }]\n`,
      );
    // Each of them, up or down: neither is in the other's way.
    for (const at of [300, 330])
      for (const hole of [0, 1]) {
        const [move] = fixesOf(pair(at), hole, 1).filter(({ kind }) => kind === "move");
        const [first = 0, second = 0] = ["holes.0.at", "holes.1.at"].map((path) => numberAt(move?.after ?? "", path));
        expect(Math.abs(first - at)).toBeGreaterThan(5);
        expect(second - first).toBeCloseTo(1, 9);
      }
  });
});

describe("a fix of the bore", () => {
  it("draws its last station farther up or down, and says what that costs its other note", () => {
    const design = text(300, 0.1, "fingerings: [{ note: G3, holes: ● }, { note: F#3, holes: ●, register: 1 }]\n");
    const [fix] = fixesOf(design, undefined, 0);
    const foot = numberAt(fix?.after ?? "", "bore.2.at") ?? Number.NaN;
    expect(fix).toMatchObject({ kind: "bore-length", fingering: 0, preferred: true });
    expect(fix?.title).toBe(
      `${foot < 425 ? "Shorten" : "Lengthen"} the bore by ${Number(Math.abs(foot - 425).toFixed(1))} mm, so that G3 is in tune`,
    );
    expect(numberAt(fix?.after ?? "", "bore.1.at")).toBe(100);
    // Of two notes a semitone apart the other was out before, which is no cost.
    const even = text(300, 0.1, "tolerance: 60\nfingerings: [{ note: G#3, holes: ● }, { note: G3, holes: ● }]\n");
    const off = cents(even);
    expect(off.map((each) => Math.abs(each) > 60)).toEqual([true, false]);
    const [costly] = fixesOf(even, undefined, 0);
    const after = cents(costly?.after ?? "");
    expect(costly?.title).toMatch(
      new RegExp(`^Shorten the bore by .*, so that G#3 is in tune, but G3 gets ${inWords(after[1] ?? 0)} sharp$`),
    );
    // Of several that it costs, the worst is told, wherever it stands.
    const several = text(
      300,
      0.1,
      "tolerance: 130\nfingerings: [{ note: A3, holes: ● }, { note: G3, holes: ● }, { note: F#3, holes: ● }, { note: G#3, holes: ● }]\n",
    );
    expect(cents(several).map((each) => Math.abs(each) > 130)).toEqual([true, false, false, false]);
    expect(fixesOf(several, undefined, 0)[0]?.title).toMatch(/, so that A3 is in tune, but F#3 gets 300 cents sharp$/);
  });
});
