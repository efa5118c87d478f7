import { describe, expect, it } from "vitest";
import { fixesFor } from "../../../server/src/design/fix/fixHole.js";
import { governingHole } from "../../../server/src/design/predict/governing.js";
import type { OutOfTuneData } from "../../../server/src/design/rules/outOfTune.js";
import { applyEdits } from "../../../server/src/document/edits.js";
import { checked, documentOf, fileOf, WHISTLE } from "../../support/designs.js";

const pitchFindings = (text: string) => checked(text).findings.filter(({ code }) => code.startsWith("pitch/"));

describe("pitch/out-of-tune", () => {
  it("marks the place of the hole that decides the note, and says how far and what to do", () => {
    const [finding, ...others] = pitchFindings(WHISTLE);
    expect(others).toEqual([]);
    expect(finding).toMatchObject({ code: "pitch/out-of-tune", severity: "warning", path: ["holes", 1, "at"] });
    expect(WHISTLE.slice(finding?.span.start, finding?.span.end)).toBe("210.3");
    expect(finding?.message).toMatch(
      /^E5 sounds \d+ cents flat\. Move L2 [\d.]+ mm toward the mouth, or open L2 to [\d.]+ mm\.$/,
    );
    const related = finding?.related?.[0];
    expect(WHISTLE.slice(related?.span.start, related?.span.end)).toContain("degree: 6");
  });

  it("is silent inside the tolerance", () => {
    expect(pitchFindings(WHISTLE.replace("tolerance: 10", "tolerance: 50"))).toEqual([]);
  });

  it("speaks of the bore's length where every hole is closed", () => {
    const [finding] = pitchFindings(WHISTLE.replace("at: 394.1", "at: 400")).filter(({ path }) => path[0] === "bore");
    expect(finding?.message).toMatch(/^G4 sounds \d+ cents flat\. A bore [\d.]+ mm shorter puts it right\./);
    expect(finding?.path).toEqual(["bore", 1, "at"]);
  });

  it("names the nearer note and becomes an error beyond half a semitone", () => {
    const [finding] = pitchFindings(WHISTLE.replace("{ degree: 6, holes", "{ degree: 7, holes"));
    expect(finding).toMatchObject({ severity: "error" });
    expect(finding?.message).toContain("closer to E5");
  });

  it("says so when one hole cannot correct both its notes", () => {
    const torn = `${WHISTLE}  - { note: D#6, holes: ●○○○○○, register: 2 }\n`;
    const finding = pitchFindings(torn).find(({ path }) => path[0] === "holes");
    expect(finding?.message).toMatch(/But .* alone cannot put both right\.$/);
  });
});

describe("pitch/no-resonance", () => {
  it("marks a register that the column does not have", () => {
    const findings = pitchFindings(WHISTLE.replace("●●●●●●, register: 2", "○○○○○○, register: 9"));
    expect(findings.at(-1)).toMatchObject({ code: "pitch/no-resonance", path: ["fingerings", 6, "register"] });
  });
});

describe("the fixes of an out-of-tune hole", () => {
  it.each(["move", "resize"] as const)("%s it: the note comes right and no other byte changes", (kind) => {
    const file = fileOf(WHISTLE);
    const { analysis, findings } = checked(WHISTLE);
    const finding = findings.find(({ code }) => code === "pitch/out-of-tune");
    const { hole, fingerings } = (finding?.data ?? { fingerings: [] }) as OutOfTuneData;
    const fix = fixesFor(documentOf(file), analysis, hole, fingerings[0] ?? -1).find((each) => each.kind === kind);
    const text = applyEdits(WHISTLE, fix?.edits ?? []);
    const line = (all: string) => all.split("\n").filter((each) => !each.includes("name: L2"));
    expect(line(text)).toEqual(line(WHISTLE));
    expect(text).not.toBe(WHISTLE);
    const worst = checked(text).analysis.fingerings[fingerings[0] ?? -1]?.cents;
    // Rounded to 0.1 mm: half of that is worth well under a cent.
    expect(Math.abs(worst ?? Number.NaN)).toBeLessThan(1);
  });

  it("changes an expression rather than replacing it: its last number, or by adding one", () => {
    const parametric = WHISTLE.replace("at: 210.3", "at: =L1.at + 37");
    const { analysis } = checked(parametric);
    const fix = fixesFor(documentOf(fileOf(parametric)), analysis, 1, 5).find(({ kind }) => kind === "move");
    expect(applyEdits(parametric, fix?.edits ?? [])).toMatch(/at: =L1\.at \+ 3[12]\.\d+, /);
    const named = WHISTLE.replace("parameters: {", "parameters: { low: 210.3, ").replace("at: 210.3, d", "at: =low, d");
    const move = fixesFor(documentOf(fileOf(named)), checked(named).analysis, 1, 5).find(({ kind }) => kind === "move");
    expect(applyEdits(named, move?.edits ?? [])).toMatch(/at: =low - \d\.\d, /);
  });

  it("offers nothing that would run into a neighbour", () => {
    const tight = WHISTLE.replace("at: 210.3", "at: 221.5").replace("{ degree: 6,", "{ note: C5,");
    const { analysis } = checked(tight);
    expect(fixesFor(documentOf(fileOf(tight)), analysis, 1, 5).map(({ kind }) => kind)).not.toContain("move");
  });
});

describe("the hole that decides a note", () => {
  it("is the open one nearest the mouth; none with all closed; a half-closed one only for want of another", () => {
    expect(governingHole([1, 1, 0, 0])).toBe(2);
    expect(governingHole([1, 1, 1])).toBeUndefined();
    expect(governingHole([0.5, 1, 0])).toBe(2);
    expect(governingHole([1, 0.5, 1])).toBe(1);
  });
});
