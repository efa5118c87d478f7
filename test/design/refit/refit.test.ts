/** Refits through the public face: a design as text in, a design as text out, checked like any other. */

import { readFileSync } from "node:fs";
import { join } from "node:path";
import { describe, expect, it } from "vitest";
import { analyse } from "../../../server/src/design/predict/analyse.js";
import { OutOfReach } from "../../../server/src/design/refit/outOfReach.js";
import { refit } from "../../../server/src/design/refit/refit.js";
import { retune } from "../../../server/src/design/refit/rekeyByRefit.js";
import { rekey } from "../../../server/src/design/rekey/rekey.js";
import { CannotRekey, type RekeyResult } from "../../../server/src/design/rekey/rekeyResult.js";
import { applyEdits } from "../../../server/src/document/edits.js";
import { syntaxOf } from "../../../server/src/document/read.js";
import { sharedColumn } from "../../../server/src/instrument/body.js";
import { centsAbove } from "../../../server/src/music/cents.js";
import { parseNote } from "../../../server/src/music/note.js";
import { checked, documentOf, fileOf, WHISTLE as TEST_WHISTLE } from "../../support/designs.js";
import { foundIn } from "../../support/found.js";

const EXAMPLES = join(import.meta.dirname, "../../../examples");
const example = (name: string) => ({ text: readFileSync(join(EXAMPLES, name), "utf8"), syntax: syntaxOf(name) });
const WHISTLE = example("quay-whistle.bore.yaml");

const known = new Map<string, () => RekeyResult>();

/** As the product answers, which refuses what nobody would make. Worked out once for all tests: an answer is never changed. */
function asked({ text, syntax }: ReturnType<typeof example>, to: string): RekeyResult {
  const question = `${to} ${text}`;
  const answer =
    known.get(question) ?? answerOf(() => rekey(fileOf(text, syntax), 0, parseNote(to) ?? never(), "refit"));
  known.set(question, answer);
  return answer();
}

/** What `work` gives or throws, once and for all. */
function answerOf<T>(work: () => T): () => T {
  try {
    const result = work();
    return () => result;
  } catch (error) {
    return () => {
      throw error;
    };
  }
}

function refitted(design: ReturnType<typeof example>, to: string): RekeyResult {
  return foundIn(() => asked(design, to));
}

const worst = ({ after }: RekeyResult) => Math.abs(after.summary?.worstCents ?? Number.NaN);

/** Distances between neighbouring fingers' holes as printed, mm: L1–L2–L3 and R1–R2–R3 of the whistle. */
function stretches({ after }: RekeyResult): number[] {
  const holes = sharedColumn(after.instrument.body)?.holes ?? [];
  return [1, 2, 4, 5].map((i) => 1e3 * ((holes[i]?.x ?? Number.NaN) - (holes[i - 1]?.x ?? Number.NaN)));
}

/** What a refit holds, so that no finding complains of it. */
const HELD = [
  "hands/out-of-reach",
  "hands/thumb-out-of-reach",
  "hands/hole-too-wide",
  "hole/too-near",
  "hole/near-joint",
];

describe("a refit to another key", () => {
  it.each([
    ["quay-whistle.bore.yaml", ["F4", "G4", "A4", "C5"]],
    ["ferry-flute.bore.yaml", ["D4", "E4", "G4"]],
    ["pier-notch-flute.bore.json", ["F4", "G4", "A4"]],
  ])("of %s leaves every note of both registers within 2 cents, where hands and print allow it", (name, keys) => {
    for (const key of keys) {
      const result = refitted(example(name), key);
      expect(result.obstacles).toEqual([]);
      expect(worst(result)).toBeLessThanOrEqual(2);
      expect(result.after.summary?.count).toBe(result.before.summary?.count);
      expect(checked(result.text, example(name).syntax).analysis.summary?.worstCents).toBe(
        result.after.summary?.worstCents,
      );
    }
  });

  it.each([
    ["quay-whistle.bore.yaml", ["F4", "A4", "C5"]],
    ["ferry-flute.bore.yaml", ["C4", "E4", "G4", "B4"]],
    ["pier-notch-flute.bore.json", ["F4", "A4", "C5"]],
  ])("of %s leaves nothing to complain of in hands and holes", (name, keys) => {
    for (const key of keys) {
      const { text } = asked(example(name), key);
      const codes = checked(text, example(name).syntax).findings.map(({ code }) => code);
      expect(
        codes.filter((code) => HELD.includes(code)),
        key,
      ).toEqual([]);
    }
  });

  it("keeps walls, mouth, the reach of the hand and what a fingertip covers", () => {
    for (const key of ["C4", "F4", "C5"]) {
      const result = refitted(WHISTLE, key);
      const [old, now] = [sharedColumn(result.before.instrument.body), sharedColumn(result.after.instrument.body)];
      expect(now?.wall).toBe(old?.wall);
      expect(now?.mouth).toEqual(old?.mouth);
      // The design says: reach 34, fingertip 11.
      expect(Math.max(...stretches(result))).toBeLessThanOrEqual(34);
      for (const { radius } of now?.holes ?? []) expect(2e3 * radius).toBeLessThanOrEqual(11);
    }
  });

  it("stays parametric: parameters and the numbers of expressions move, expressions stand", () => {
    const { text } = refitted(WHISTLE, "A4");
    expect(text).toMatch(/at: =lower,/);
    expect(text).toMatch(/at: =lower \+ gap,/);
    expect(text).toMatch(/at: =lower \+ 2\*gap \+ [\d.]+,/);
    expect(text).toMatch(/lower: (?!270\.8)[\d.]+ +#/);
    const holes = sharedColumn(checked(text).analysis.instrument.body)?.holes ?? [];
    expect(holes).toHaveLength(6);
  });

  it("keeps every byte it does not mean", () => {
    const crlf = { ...WHISTLE, text: WHISTLE.text.replaceAll("\n", "\r\n") };
    const numbers = /[\d.]+/g;
    const { text } = refitted(crlf, "A4");
    const skeleton = (all: string) => all.replace("key: G4", "key: A4").replace(numbers, "0");
    const expected = skeleton(crlf.text).split("\r\n");
    const lines = skeleton(text).split("\r\n");
    const changed = lines.filter((line, i) => line !== expected[i]);
    // Only the stations' diameters get a difference to their parameter.
    for (const line of changed) expect(line).toMatch(/diameter: =tube [+-] 0 \}/);
    expect(lines).toHaveLength(expected.length);
  });

  it("draws to a tenth of a millimetre", () => {
    for (const { to } of refitted(WHISTLE, "A4").moves)
      expect(Math.abs(to * 10 - Math.round(to * 10))).toBeLessThan(1e-9);
  });

  it("says what is in the way, with the numbers, where the hand cannot follow", () => {
    const { obstacles, remarks } = refitted(WHISTLE, "C4");
    expect(obstacles.length).toBeGreaterThan(0);
    for (const { needed, limit } of obstacles) expect(needed).not.toBeCloseTo(limit, 1);
    expect(remarks.join(" ")).toMatch(/would (need|have to)/);
    // An ordinary instrument is not cut short, however far the nearest possible key must be looked for.
    expect(remarks.join("\n")).not.toMatch(/take long/);
  });

  it("refuses what no hole and no hand can do", () => {
    expect(() => refitted(WHISTLE, "D6")).toThrow(CannotRekey);
  });

  it("leaves what is `fixed`, and keeps within `limits`", () => {
    const held = WHISTLE.text
      .replace("{ name: L1, at: 173.3, diameter: 7 }", "{ name: L1, at: 173.3, diameter: 7, fixed: true }")
      .replace(
        "{ name: L3, at: 229.8, diameter: 7 }",
        "{ name: L3, at: 229.8, diameter: 7, limits: { diameter: [6.5, 7.5] } }",
      );
    const { moves, text } = retune(fileOf(held), 0, "all");
    expect(moves.map(({ path }) => path.join("."))).not.toContain("holes.0.at");
    expect(text).toContain("{ name: L1, at: 173.3, diameter: 7, fixed: true }");
    const diameter = Number(/name: L3, at: [\d.]+, diameter: ([\d.]+)/.exec(text)?.[1]);
    expect(diameter).toBeGreaterThanOrEqual(6.5);
    expect(diameter).toBeLessThanOrEqual(7.5);
  });
});

describe("what must hold in a refit", () => {
  const PLAIN = WHISTLE.text.replace(
    "at: 150, diameter: =tube }",
    "at: 150, diameter: =tube, limits: { at: [149, 151] } }",
  );
  const moved = (text: string, pattern: RegExp) => Number(pattern.exec(text)?.[1]);

  it("is a station's `limits.at`, the foot's too", () => {
    const held = PLAIN.replace(
      "at: 394.6, diameter: =tube }",
      "at: 394.6, diameter: =tube, limits: { at: [394.5, 394.7] } }",
    );
    expect(held).not.toBe(PLAIN);
    const result = refitted({ text: held, syntax: "yaml" }, "F4");
    const [, station, foot] = sharedColumn(result.after.instrument.body)?.bore ?? [];
    expect(1e3 * (station?.x ?? 0)).toBeGreaterThanOrEqual(149 * 0.998);
    expect(1e3 * (station?.x ?? 0)).toBeLessThanOrEqual(151);
    expect(moved(result.text, /at: ([\d.]+), diameter: =tube[^}]*limits: \{ at: \[394/)).toBeGreaterThanOrEqual(394.5);
    expect(moved(result.text, /at: ([\d.]+), diameter: =tube[^}]*limits: \{ at: \[394/)).toBeLessThanOrEqual(394.7);
    expect(foot?.x).toBeLessThan(0.395);
    // A whistle as long as that plays no F4: the foot is named.
    expect(result.obstacles.map(({ message }) => message).join()).toMatch(/the foot would have to lie at 4\d\d/);
  });

  it("is given in the unit of the design", () => {
    const inches = `borewright: 1
units: in
family: duct
key: G4
mouth: { window: { width: 0.4, cutUp: 0.17 } }
bore: [{ at: 0, diameter: 0.6 }, { at: 15, diameter: 0.6 }]
wall: 0.12
holes:
  - { name: L1, at: 8, diameter: 0.3 }
  - { name: L2, at: 9.2, diameter: 0.3 }
fingerings: [{ degree: 1, holes: ●● }, { degree: 2, holes: ●○ }, { degree: 3, holes: ○○ }]
hands: { reach: 1.3 }
`;
    const { remarks } = refitted({ text: inches, syntax: "yaml" }, "C3");
    expect(remarks.join(" ")).toMatch(/ in( |,|\.)/);
    expect(remarks.join(" ")).not.toMatch(/\d mm/);
  });

  it("is a hole's `limits` of one single place and size", () => {
    const text = WHISTLE.text.replace(
      "{ name: L2, at: 205.3, diameter: 8.5 }",
      "{ name: L2, at: 205.3, diameter: 8.5, limits: { at: [205.3, 205.3], diameter: [8.5, 8.5] } }",
    );
    expect(retune(fileOf(text), 0, "all").text).toContain("{ name: L2, at: 205.3, diameter: 8.5, limits");
  });

  it("is the order of the holes, also of a thumb's and a finger's", () => {
    const text = WHISTLE.text
      .replace("  - { name: L1,", "  - { name: T, at: 172, diameter: 6, side: back }\n  - { name: L1,")
      .replace(/holes: ([●○]+)/g, (_, signs: string) => `holes: ${signs.startsWith("○") ? "○" : "●"}${signs}`);
    const { after } = retune(fileOf(text), 0, "all");
    const places = sharedColumn(after.instrument.body)?.holes.map(({ x }) => x) ?? [];
    expect(places).toHaveLength(7);
    expect(places).toEqual([...places].sort((a, b) => a - b));
  });
});

describe("what a refit says before it is applied", () => {
  it("names a note that it leaves weak, and none where none is", () => {
    const quay = example("quay-whistle.bore.yaml");
    expect(refitted(quay, "D5").remarks.join("\n")).toMatch(
      /After this refit B6 will be weak: its resonance is only \d+ dB/,
    );
    expect(refitted(quay, "A4").remarks.join("\n")).not.toContain("After this refit");
  });

  it("has nothing in the way where every note that sounded is within the tolerance", () => {
    const result = refitted(example("gull-first-print.bore.yaml"), "F5");
    const { after, obstacles, remarks } = result;
    expect(after.fingerings.some(({ predictedHz }) => predictedHz === undefined)).toBe(true);
    expect(worst(result)).toBeLessThan(after.tolerance);
    expect(obstacles).toEqual([]);
    expect(remarks.join("\n")).not.toContain("Held back by");
  });
});

describe("the nearest possible key", () => {
  it("is offered where the key asked for is not possible, and holds", () => {
    const { nearestKey, remarks } = refitted(WHISTLE, "C4");
    const name = nearestKey?.name ?? "none";
    expect(remarks.join(" ")).toContain(`or take key ${name}`);
    const there = refitted(WHISTLE, name);
    expect(there.obstacles).toEqual([]);
    expect(worst(there)).toBeLessThanOrEqual(there.after.tolerance);
  });

  it("follows the design's own temperament, in which semitones differ", () => {
    const ferry = example("ferry-flute.bore.yaml");
    expect(ferry.text).toContain("just");
    const { nearestKey, before } = refitted(ferry, "Eb3");
    const [asked, own] = ["Eb3", "D4"].map((name) => parseNote(name)?.midi ?? Number.NaN) as [number, number];
    expect(before.instrument.key?.midi).toBe(own);
    expect(refitted(ferry, nearestKey?.name ?? "none").obstacles).toEqual([]);
    expect(nearestKey?.midi).toBeGreaterThan(asked);
    expect(nearestKey?.midi).toBeLessThan(own);
  });

  it("is offered with a refusal", () => {
    expect(() => refitted(WHISTLE, "D6")).toThrow(/nearest possible key is [A-G]/);
  });

  it("is not searched for where nothing is in the way", () => {
    expect(refitted(WHISTLE, "F4").nearestKey).toBeUndefined();
  });
});

describe("an impossible key", () => {
  it("is refused, with what is in the way and the print scale that reaches it, and what that costs", () => {
    let refusal: unknown;
    try {
      asked(WHISTLE, "C4");
    } catch (error) {
      refusal = error;
    }
    if (!(refusal instanceof OutOfReach)) throw refusal;
    const { found, message } = refusal;
    expect(worst(found)).toBeGreaterThan(50);
    expect(message).toMatch(
      /^A refit of this instrument cannot reach C4, and nothing is changed: .* leaves C5 \d+ cents/,
    );
    expect(message).toMatch(
      /the tube would have to be 6\d\d(\.\d)? mm long, but the bed takes 499 mm\. To come closer, split it/,
    );
    expect(message).toMatch(/The nearest possible key by refit is [A-G]#?b?4$/);
    // As `scale` and the tables say.
    const scaled = rekey(fileOf(WHISTLE.text), 0, parseNote("C4") ?? never(), "print-scale");
    expect(message).toContain(`Printed at ${scaled.printScalePercent} % it plays in C4, but then: L1 and L2 are 4`);
  });

  it("is not refused where a design that was as far off in its own key comes nearer", () => {
    const far = WHISTLE.text.replace("{ at: 394.6,", "{ at: 330,");
    expect(() => asked({ ...WHISTLE, text: far }, "A4")).not.toThrow();
  });
});

describe("notes measured before a refit", () => {
  it("are said to belong to the instrument as it was", () => {
    const measured = { ...WHISTLE, text: `${WHISTLE.text}measured: [{ note: G4, hz: 389.4 }]\n` };
    expect(refitted(measured, "A4").remarks.join(" ")).toContain("set aside");
    expect(refitted(WHISTLE, "A4").remarks.join(" ")).not.toContain("set aside");
  });
});

describe("bringing a design into tune", () => {
  it("moves only holes where the bore is to be kept", () => {
    const gull = example("gull-first-print.bore.yaml");
    const { moves, after } = retune(fileOf(gull.text), 0, "holes");
    expect(moves.every(({ path }) => path[0] === "holes")).toBe(true);
    const byHoles = after.fingerings.filter(({ fingering }) => fingering.covers?.some((cover) => cover < 1));
    for (const { cents } of byHoles) if (cents !== undefined) expect(Math.abs(cents)).toBeLessThan(1);
  });

  it("makes small moves for small needs", () => {
    const tuned = retune(fileOf(TEST_WHISTLE), 0, "holes").text;
    const off = tuned.replace(/(name: L2, at: )([\d.]+)/, (_, name, at) => `${name}${(Number(at) + 1).toFixed(1)}`);
    const { moves } = retune(fileOf(off), 0, "holes");
    expect(moves.length).toBeGreaterThan(0);
    for (const { from, to } of moves) expect(Math.abs(to - from)).toBeLessThan(3);
  });

  it("takes an ideal six-hole tube an octave down, all limits off, as exactly as the uniform scaling by two does", () => {
    // Textbook scaling: without losses every frequency goes as one over size (Chaigne & Kergomard, Acoustics of Musical
    // Instruments, from memory).
    const tube = [
      "borewright: 1",
      "family: rim",
      "key: A4",
      "air: { losses: false, speedOfSound: 345 }",
      "mouth: ideal",
      "bore:",
      "  - { at: 0, diameter: 16 }",
      "  - { at: 380, diameter: 16 }",
      "wall: 3",
      "hands: { reach: 500, fingertip: 40 }",
      "holes:",
      ...[200, 222, 246, 272, 300, 330].map((at, i) => `  - { name: F${i}, at: ${at}, diameter: 8 }`),
      "fingerings:",
      ...[0, 1, 2, 3, 4, 5, 6].map((open) => `  - { degree: 1, holes: ${"●".repeat(6 - open)}${"○".repeat(open)} }`),
      "",
    ].join("\n");
    const file = fileOf(tube);
    const document = documentOf(file);
    const before = analyse(document.resolution.instrument);
    const played = before.fingerings.map(({ predictedHz = Number.NaN }) => predictedHz);
    const redrawn = rekey(file, 0, parseNote("A3") ?? never(), "redraw");
    redrawn.after.fingerings.forEach(({ predictedHz = Number.NaN }, i) => {
      const uniform = centsAbove(predictedHz * redrawn.factor, played[i] ?? Number.NaN);
      // Drawn to 0.1 mm, too.
      expect(Math.abs(uniform)).toBeLessThan(0.3);
    });
    const request = { targets: played.map((hz) => hz / 2), factor: 2, freedom: "all" } as const;
    const { edits } = refit(file, document, before, request);
    const after = analyse(documentOf(fileOf(applyEdits(tube, edits))).resolution.instrument);
    after.fingerings.forEach(({ predictedHz = Number.NaN }, i) => {
      // Drawn to 0.1 mm in 760.
      expect(Math.abs(centsAbove(2 * predictedHz, played[i] ?? Number.NaN))).toBeLessThan(0.3);
    });
  });
});

function never(): never {
  throw new Error("not a note");
}
