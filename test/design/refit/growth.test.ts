/** Between print scale and refit: bore, mouth and holes grow by a share; tubes and drills are those at hand; a bore keeps its law. */
import { readFileSync } from "node:fs";
import { describe, expect, it } from "vitest";
import { rekey } from "../../../server/src/design/rekey/rekey.js";
import { sharedColumn } from "../../../server/src/instrument/body.js";
import type { Instrument } from "../../../server/src/instrument/model.js";
import { parseNote } from "../../../server/src/music/note.js";
import { checked, fileOf } from "../../support/designs.js";
import { jobText } from "../../support/jobs.js";

/** A high whistle as everybody makes it, on half an inch of brass. Dimensions invented. */
const WHISTLE_IN_D = `borewright: 1
family: duct
key: D5
tolerance: 10
air: { temperature: 22, humidity: 60 }
parameters: { tube: 12.7 }
mouth: { window: { width: 8, cutUp: 4, labium: 1 } }
bore: [ { at: 0, diameter: =tube }, { at: 262, diameter: =tube } ]
wall: 0.6
holes:
  - { name: L1, at: 114, diameter: 6 }
  - { name: L2, at: 136, diameter: 7 }
  - { name: L3, at: 152, diameter: 6 }
  - { name: R1, at: 178, diameter: 6.5 }
  - { name: R2, at: 194, diameter: 7 }
  - { name: R3, at: 216, diameter: 5 }
fingerings:
  - { degree: 1, holes: ●●●●●● }
  - { degree: 2, holes: ●●●●●○ }
  - { degree: 3, holes: ●●●●○○ }
  - { degree: 4, holes: ●●●○○○ }
  - { degree: 5, holes: ●●○○○○ }
  - { degree: 6, holes: ●○○○○○ }
  - { degree: 8, holes: ●●●●●●, register: 2 }
  - { degree: 9, holes: ●●●●●○, register: 2 }
  - { degree: 10, holes: ●●●●○○, register: 2 }
`;

function refitted(text: string, to: string, growth?: number) {
  const note = parseNote(to);
  if (note === undefined) throw new Error(to);
  return rekey(fileOf(text), 0, note, "refit", undefined, {}, growth);
}

const widths = ({ body }: Instrument) =>
  sharedColumn(body)?.bore.map(({ radius }) => Number((2e3 * radius).toFixed(2))) ?? [];
const holes = ({ body }: Instrument) =>
  sharedColumn(body)?.holes.map(({ radius }) => Number((2e3 * radius).toFixed(3))) ?? [];

describe("a high whistle in D, an octave lower", () => {
  it("has the bore and the holes of a low one where they may grow as is usual", () => {
    const { after, text, moves } = refitted(`${WHISTLE_IN_D}refit: { growth: 0.75 }\n`, "D4");
    // Low whistles in D have 21 to 23 mm of bore and 7 to 11 mm of holes: common practice, no source.
    const [bore = 0] = widths(after.instrument);
    expect(bore).toBeGreaterThan(20.5);
    expect(bore).toBeLessThan(23.5);
    expect(new Set(widths(after.instrument)).size).toBe(1);
    expect(text).toContain("diameter: =tube }");
    expect(moves).toContainEqual(expect.objectContaining({ path: ["bore", 0, "diameter"], from: 12.7 }));
    expect(Math.abs(after.summary?.worstCents ?? 99)).toBeLessThan(10);
    const mean = holes(after.instrument).reduce((sum, hole) => sum + hole, 0) / 6;
    expect(mean).toBeGreaterThan(7);
    expect(mean).toBeLessThan(11);
    expect(refitted(WHISTLE_IN_D, "D4", 0.75).text).toBe(text.replace("refit: { growth: 0.75 }\n", ""));
  });

  it("keeps its bore by default, and says what is usual", () => {
    const { after, remarks } = refitted(WHISTLE_IN_D, "D4");
    expect(new Set(widths(after.instrument))).toEqual(new Set([12.7]));
    expect(remarks.join("\n")).toMatch(/The bore keeps its 12\.7 mm; .* usually choose about 2[123]\.\d mm/);
    expect(refitted(WHISTLE_IN_D, "C5").remarks.join("\n")).not.toContain("The bore keeps");
  });

  it("takes a tube and drills that are at hand, in inches too", () => {
    const stock =
      'stock: { units: in, bores: [0.5, "=53/64", 1], drills: ["=3/16", "=1/4", "=5/16", "=11/32", "=3/8", "=13/32", "=7/16"] }';
    const { after, text } = refitted(`${WHISTLE_IN_D}refit: { growth: 0.75 }\n${stock}\n`, "D4");
    expect(new Set(widths(after.instrument))).toEqual(new Set([Number(((53 / 64) * 25.4).toFixed(2))]));
    const drills = [3 / 16, 1 / 4, 5 / 16, 11 / 32, 3 / 8, 13 / 32, 7 / 16].map((inch) => (inch * 25.4).toFixed(2));
    for (const hole of holes(after.instrument)) expect(drills).toContain(hole.toFixed(2));
    expect(Math.abs(after.summary?.worstCents ?? 99)).toBeLessThan(10);
    expect(checked(text).findings.filter(({ code }) => code.startsWith("schema"))).toEqual([]);
  });
});

describe("the law of the bore", () => {
  const tapered = WHISTLE_IN_D.replace(
    "{ at: 262, diameter: =tube }",
    "{ at: 100, diameter: =tube }, { at: 262, diameter: 11.08 }",
  );
  const slope = (text: string) => {
    const [, head, foot] = sharedColumn(checked(text).analysis.instrument.body)?.bore ?? [];
    return head && foot ? (2 * (foot.radius - head.radius)) / (foot.x - head.x) : Number.NaN;
  };

  it("a taper keeps its slope, to a step of the drawing over its length", () => {
    for (const key of ["Eb5", "C5", "A4"]) {
      const { text, after } = refitted(tapered, key);
      const [, head, foot] = sharedColumn(after.instrument.body)?.bore ?? [];
      const length = 1e3 * ((foot?.x ?? 0) - (head?.x ?? 0));
      expect(Math.abs(slope(text) - slope(tapered)) * length).toBeLessThanOrEqual(0.16);
    }
  });

  it("a cylinder stays one, and may narrow where the design says so", () => {
    const quay = readFileSync("examples/quay-whistle.bore.yaml", "utf8");
    const count = (text: string) => new Set(widths(refitted(text, "F4").after.instrument)).size;
    expect(count(quay.replace("taper: free", "taper: kept"))).toBe(1);
    expect(count(quay)).toBeGreaterThan(1);
  });

  it("a taper keeps the slope it was given, however many refits follow one another", () => {
    const [given, made] = [jobText("notch"), refitted(jobText("notch"), "C4").text].map(
      (text) => sharedColumn(checked(text).analysis.instrument.body)?.bore ?? [],
    );
    const beside = given?.slice(1).map((to, i) => {
      const [from, there, before] = [given[i] ?? to, made?.[i + 1] ?? to, made?.[i] ?? to];
      const slope = (to.radius - from.radius) / (to.x - from.x);
      return Math.abs(2e3 * (there.radius - before.radius - slope * (there.x - before.x)));
    });
    expect(beside).toHaveLength(3);
    // What drawing takes of a width, once.
    for (const mm of beside ?? []) expect(mm).toBeLessThanOrEqual(0.16);
  });

  it("a note that sounds another resonance as drawn is sought once more from there", () => {
    const { after } = refitted(jobText("transverse"), "C4");
    // Searches from 14 starts, with the taper kept, left 19.2 cents at best; where the drawing's other resonance was left, 26.
    expect(Math.abs(after.summary?.worstCents ?? 99)).toBeLessThan(22);
  });

  it("of a taper that may grow with the key is stretched with it", () => {
    const { text } = refitted(`${tapered}refit: { growth: 0.75 }\n`, "D4");
    expect(slope(text) / slope(tapered)).toBeCloseTo(2 ** (0.75 - 1), 1);
  });
});
