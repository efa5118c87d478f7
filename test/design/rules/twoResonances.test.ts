/** Two resonances that compete for one note: followed, told, and covered by the band. */
import { readdirSync, readFileSync } from "node:fs";
import { join } from "node:path";
import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { analyse } from "../../../server/src/design/predict/analyse.js";
import { bandsOf } from "../../../server/src/design/predict/band.js";
import { centsAbove } from "../../../server/src/music/cents.js";
import { checked, documentOf, fileOf } from "../../support/designs.js";

/** A whistle with a long tube below its holes, which resonates by itself. */
const long = (length: number, fingerings: readonly string[] = ["●●●○○○"], tube = 16) => `borewright: 1
family: duct
key: G4
air: { temperature: 22, humidity: 60 }
mouth: { window: { width: 10, cutUp: 4.5, labium: 1 } }
bore: [ { at: 0, diameter: ${tube} }, { at: ${length}, diameter: ${tube} } ]
wall: 3
holes:
  - { name: L1, at: 173.3, diameter: 7 }
  - { name: L2, at: 205.3, diameter: 8.5 }
  - { name: L3, at: 229.8, diameter: 7 }
  - { name: R1, at: 270.8, diameter: 7 }
  - { name: R2, at: 289.6, diameter: 8.5 }
  - { name: R3, at: 321.4, diameter: 6.5 }
print: { scale: 100 %, shrinkage: 0.2 %, holeUndersize: 0.15 }
fingerings:
${fingerings.map((holes) => `  - { degree: 4, holes: ${holes} }\n  - { degree: 4, holes: ${holes}, register: 2 }\n`).join("")}`;

const withoutRival = <R extends object>(resonance: R | undefined) => resonance && { ...resonance, rival: undefined };
const found = (text: string) => checked(text).findings.filter(({ code }) => code === "pitch/two-resonances");
const notes = (text: string) =>
  analyse(documentOf(fileOf(text)).resolution.instrument).fingerings.map(({ predictedHz = Number.NaN }) => predictedHz);

describe("pitch/two-resonances", () => {
  it("names both frequencies and their notes, and the band reaches from one to the other", () => {
    const text = long(621);
    const [finding, ...others] = found(text);
    expect(others.map(({ path }) => path)).toEqual([]);
    expect(finding).toMatchObject({ severity: "warning", path: ["fingerings", 0] });
    const [, one, , apart, other] =
      /sound at ([\d.]+) Hz \(near (\S+)\), or (\d+) cents lower at ([\d.]+) Hz \(near \S+\)/.exec(
        finding?.message ?? "",
      ) ?? [];
    expect(Number(one)).toBeCloseTo(notes(text)[0] ?? 0, 0);
    expect(centsAbove(Number(one), Number(other))).toBeCloseTo(Number(apart), -0.5);
    const { resolution, analysis } = { ...documentOf(fileOf(text)), analysis: checked(text).analysis };
    const [band, second] = bandsOf(resolution, analysis);
    expect(band?.mostly).toBe("rival");
    expect(band?.cents).toBeGreaterThanOrEqual(Number(apart) - 1);
    // What one note may do moves no other against the rest.
    expect(second?.mostly).not.toBe("rival");
    expect(second?.together).toBe(band?.together);
    // Without that resonance nothing else has changed, neither what all notes do together nor what this one does by itself.
    const fingerings = analysis.fingerings.map((each) => ({ ...each, resonance: withoutRival(each.resonance) }));
    const [alone, beside] = bandsOf(resolution, { ...analysis, fingerings });
    expect(beside).toEqual(second);
    expect(alone?.together).toBe(band?.together);
    const squares = (band?.against ?? 0) ** 2 - (alone?.against ?? 0) ** 2;
    expect(Math.sqrt(squares)).toBeCloseTo(Number(apart), -0.5);
  });

  it("is silent where the other resonance is much weaker, and of every example", () => {
    expect(found(long(640))).toEqual([]);
    const examples = join(import.meta.dirname, "../../../examples");
    const designs = readdirSync(examples).filter((name) => /\.bore\.(yaml|json)$/.test(name));
    expect(designs.length).toBeGreaterThan(5);
    for (const name of designs) {
      const syntax = name.endsWith("json") ? "json" : "yaml";
      const { findings } = checked(readFileSync(join(examples, name), "utf8"), syntax);
      expect(findings.filter(({ code }) => code === "pitch/two-resonances")).toEqual([]);
    }
  });
});

describe("where it is nearly undecided whether two resonances are two registers", () => {
  // Between 690 and 692 mm the lower one stops counting by itself: 248 cents in the first register, 969 in the second.
  const [before, after] = [long(690, ["●●●●●○"], 12), long(692, ["●●●●●○"], 12)];

  it("tells of the note that another millimetre of bore would bring, where that is the stronger", () => {
    const [first, second] = notes(before).map((hz, i) => centsAbove(notes(after)[i] ?? 0, hz));
    expect(first).toBeCloseTo(248, -1);
    expect(second).toBeCloseTo(969, -1);
    const [one] = found(before);
    expect(one?.path).toEqual(["fingerings", 0]);
    expect(one?.message).toContain("or 250 cents higher at 483.8 Hz");
    expect(one?.message).toContain("resonates more strongly");
    const [two] = found(after);
    expect(two?.path).toEqual(["fingerings", 1]);
    expect(two?.message).toMatch(/cents lower at 48[34]/);
  });

  it("bands reach to it", () => {
    const { resolution } = documentOf(fileOf(before));
    const [band] = bandsOf(resolution, checked(before).analysis);
    expect(band?.mostly).toBe("rival");
    expect(band?.cents).toBeGreaterThan(240);
  });
});

describe("a prediction", () => {
  // The weaker resonance of each pair vanishes here: 66 and 41 cents from one resonance to the other.
  it.each([
    [624, 624.25],
    [950, 951],
  ])("follows the stronger resonance from a length of %d mm to %d", (before, after) => {
    const [first, second] = notes(long(before)).map((hz, i) => centsAbove(hz, notes(long(after))[i] ?? 0));
    expect(Math.abs(first ?? 99)).toBeLessThan(1.5);
    expect(Math.abs(second ?? 99)).toBeLessThan(1.5);
  });

  it("moves no farther with the bore's length than any tube does, unless a finding says how unsure the note is", () => {
    const SAID = new Set(["pitch/two-resonances", "response/weak-note"]);
    const STEP = 2;
    const pattern = fc.constantFrom("●●●●●○", "●●●●○○", "●●●○○○", "●●○○○○", "●○○○○○", "●●○●●○", "●○●●●●", "○●●○○○");
    let told = 0;
    fc.assert(
      fc.property(
        fc.double({ min: 380, max: 990, noNaN: true }),
        pattern,
        fc.integer({ min: 11, max: 23 }),
        (at, holes, tube) => {
          const [before, after] = [long(at, [holes], tube), long(at + STEP, [holes], tube)];
          const plain = centsAbove(at + STEP, at);
          const moved = notes(before).map((hz, i) => Math.abs(centsAbove(hz, notes(after)[i] ?? 0)));
          // No note follows the length more than twice as fast as a plain tube's.
          if (Math.max(...moved) < 2 * plain + 0.5) return;
          told++;
          const codes = [before, after].flatMap((text) => checked(text).findings.map(({ code }) => code));
          expect(codes.some((code) => SAID.has(code))).toBe(true);
        },
      ),
      { numRuns: 150 },
    );
    expect(told).toBeLessThan(40);
  });
});
