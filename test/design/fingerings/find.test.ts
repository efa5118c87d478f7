/** Fingerings found for a note: what they promise, and that nothing better in every way is passed over. */
import { readFileSync } from "node:fs";
import { join } from "node:path";
import { describe, expect, it, vi } from "vitest";
import { drained } from "../../../server/src/acoustics/steps.js";
import { findFingerings } from "../../../server/src/design/fingerings/find.js";
import { patternSteps } from "../../../server/src/design/fingerings/patterns.js";
import { ColumnSounds, type Glimpse } from "../../../server/src/design/fingerings/sounds.js";
import { analyse } from "../../../server/src/design/predict/analyse.js";
import { soundingsOf } from "../../../server/src/design/predict/body.js";
import { strengthOf } from "../../../server/src/design/predict/response.js";
import { sharedColumn } from "../../../server/src/instrument/body.js";
import { centsAbove } from "../../../server/src/music/cents.js";
import { noteFromMidi, parseNote } from "../../../server/src/music/note.js";
import { frequencyOf } from "../../../server/src/music/tuning.js";
import { documentOf, fileOf } from "../../support/designs.js";
import { tube } from "../../support/marked.js";

const example = (name: string) => readFileSync(join(import.meta.dirname, "../../../examples", name), "utf8");
const QUAY = example("quay-whistle.bore.yaml");

function foundFor(text: string, notes: readonly string[], options: { most?: number; halfHoles?: boolean } = {}) {
  const analysis = analyse(documentOf(fileOf(text)).resolution.instrument);
  const wanted = notes.map((name) => parseNote(name) ?? expect.fail(name));
  const found = drained(findFingerings(analysis, wanted, { most: 3, halfHoles: true, ...options }));
  return { analysis, found: found ?? expect.fail("nothing to finger") };
}

describe("for a note", () => {
  it("are what players use: cross-fingerings, and the vented octave in the second register", () => {
    // Common practice on six-hole whistles, no source: the lowered seventh ○●●○○○, the octave with the first hole open.
    const { found } = foundFor(QUAY, ["F5", "G5"], { most: 5 });
    const [seventh, octave] = found.map(({ fingerings }) =>
      fingerings.map(({ pattern, register }) => `${pattern} ${register}`),
    );
    expect(seventh).toContain("○●●○○○ 1");
    expect(octave).toEqual(expect.arrayContaining(["●●●●●● 2", "○●●●●● 2"]));
  });

  it("sound as they say once the design has them, in the register that they name", () => {
    const notes = ["C#5", "F5", "Bb5", "Eb6"];
    const { found } = foundFor(QUAY, notes);
    const entries = found.flatMap(({ note, fingerings }) =>
      fingerings.map(
        ({ pattern, register }) => `  - { note: ${note.name}, holes: "${pattern}", register: ${register} }\n`,
      ),
    );
    expect(entries.length).toBe(3 * notes.length);
    const text = QUAY.replace(/fingerings:[^\n]*\n(?: {2}- .*\n)+/, `fingerings:\n${entries.join("")}`);
    const { fingerings } = analyse(documentOf(fileOf(text)).resolution.instrument);
    const promised = found.flatMap((each) => each.fingerings);
    const played = fingerings.map(({ cents = Number.NaN }) => Number(cents.toFixed(6)));
    expect(played).toEqual(promised.map(({ cents }) => Number(cents.toFixed(6))));
    expect(promised.some(({ pattern }) => pattern.includes("◐"))).toBe(true);
  });

  it.each(["quay-whistle.bore.yaml", "lantern-vessel.bore.yaml"])(
    "leave none that is better in every way: %s",
    (name) => {
      const { analysis, found } = foundFor(example(name), ["C5", "Eb5", "F#5", "A5"]);
      const { instrument, air } = analysis;
      const patterns = drained(patternSteps(instrument.holes.length, [], true));
      const queries = patterns.flatMap((covers) => [1, 2].map((register) => ({ index: 0, covers, register })));
      const all = soundingsOf(instrument.body, air, queries);
      for (const { note, fingerings } of found) {
        const [best] = fingerings;
        const hz = frequencyOf(note, instrument.tuning);
        const off = best === undefined ? 50 : Math.abs(best.cents);
        const nearer = queries.filter((query, i) => {
          const sounding = all[i];
          if (sounding === undefined || Math.abs(centsAbove(sounding.frequency, hz)) >= off - 1e-6) return false;
          if (best === undefined) return true;
          // As strong, no half hole, and the same fingers: nothing is left that could stand against it.
          return strengthOf(sounding).strength >= best.strength && query.covers.join() === best.covers.join();
        });
        expect(nearer, note.name).toEqual([]);
      }
    },
  );

  it("say which the design has, and how many fingers move from the note beside it", () => {
    const { found } = foundFor(QUAY, ["A4"], { most: 1 });
    // ●●●●●○ between ●●●●●● and ●●●●○○: one finger.
    expect(found[0]?.fingerings).toMatchObject([{ pattern: "●●●●●○", isInDesign: true, moves: 1 }]);
  });

  it("include no half holes when those are excluded", () => {
    const { found } = foundFor(QUAY, ["Eb5", "Ab4"], { halfHoles: false });
    expect(found[0]?.fingerings.length).toBeGreaterThan(0);
    expect(found.flatMap(({ fingerings }) => fingerings).filter(({ pattern }) => pattern.includes("◐"))).toEqual([]);
    // A lowest hole opened gives a whole tone: what lies between has no fingering of open and closed holes.
    expect(found[1]?.fingerings).toEqual([]);
  });

  it("are none in a pan pipe", () => {
    const { instrument } = documentOf(fileOf(example("breakwater-pipes.bore.yaml"))).resolution;
    expect(drained(findFingerings(analyse(instrument), [], { most: 1, halfHoles: true }))).toBeUndefined();
  });
});

/** Two holes in a tube of 352 mm with its mouth at one end, which sounds Bb4 in this pitch. */
const small = (fingerings: string) =>
  tube(
    `mouth: ideal\npitchStandard: 451\nholes: [{ at: 220, diameter: 8 }, { at: 280, diameter: 7 }]\nfingerings: [${fingerings}]`,
  );
const CLOSEST = { most: 99 };

describe("for a note, fingerings", () => {
  const patternsIn = (text: string) =>
    documentOf(fileOf(text)).resolution.instrument.fingerings.map(({ pattern = "", target }) => ({
      pattern,
      midi: target?.midi ?? 0,
    }));
  it("are told with the fingers that move from the nearer of the notes beside it in the design", () => {
    // Whatever the order in which they are written.
    const backward = QUAY.replace(/(?: {2}- \{ degree.*\n)+/, (list) =>
      list.trimEnd().split("\n").reverse().join("\n").concat("\n"),
    );
    const { found } = foundFor(backward, ["G4", "G#4", "A#4", "E5", "F5", "C#6"], CLOSEST);
    const differ = (one: string, other: string) => [...one].filter((sign, i) => sign !== other[i]).length;
    const written = patternsIn(QUAY);
    for (const { note, fingerings } of found) {
      const others = written.filter(({ midi }) => midi !== note.midi);
      const below = others.filter(({ midi }) => midi < note.midi).at(-1);
      const above = others.find(({ midi }) => midi > note.midi);
      for (const { pattern, moves } of fingerings) {
        const each = [below, above].flatMap((other) => (other === undefined ? [] : [differ(pattern, other.pattern)]));
        expect(moves, `${note.name} ${pattern}`).toBe(Math.min(...each));
      }
    }
    expect(found.flatMap(({ fingerings }) => fingerings).length).toBeGreaterThan(30);
    // With no other note in the design there is nothing to move from.
    expect(foundFor(small("{ note: Bb4, holes: ●● }"), ["Bb4"], CLOSEST).found[0]?.fingerings[0]?.moves).toBe(0);
  });
  it("stand by what is off, moved, half closed and weak, and are within half a semitone", () => {
    // The weights are those of find.ts, our own: 2 cents a finger, 5 a half hole, 2 a decibel below 18.
    for (const text of [QUAY, example("lantern-vessel.bore.yaml")]) {
      const { found } = foundFor(text, ["C5", "C#5", "E5", "Bb5", "Eb6"], CLOSEST);
      for (const { note, targetHz, fingerings } of found) {
        const costs = fingerings.map(
          ({ cents, moves, pattern, strength }) =>
            Math.abs(cents) + 2 * moves + 5 * pattern.split("◐").length - 5 + 2 * Math.max(0, 18 - strength),
        );
        expect(costs, note.name).toEqual([...costs].sort((a, b) => a - b));
        for (const { cents, hz } of fingerings) {
          expect(Math.abs(cents)).toBeLessThanOrEqual(50);
          expect(cents).toBeCloseTo(centsAbove(hz, targetHz), 9);
        }
      }
    }
  });
  it("are the design's own where it has them for this note, in this register", () => {
    const isOwn = (written: string, asked: string) =>
      foundFor(small(written), [asked], CLOSEST)
        .found[0]?.fingerings.filter(({ isInDesign }) => isInDesign)
        .map(({ pattern, register }) => `${pattern} ${register}`);
    const octave = "{ note: Bb5, holes: ●●, register: 2 }";
    expect(isOwn(octave, "Bb5")).toEqual(["●● 2"]);
    expect(isOwn(octave.replace("register: 2", "register: 1"), "Bb5")).toEqual([]);
    expect(isOwn(octave.replace("Bb5", "A5"), "Bb5")).toEqual([]);
    expect(isOwn(octave.replace("●●", "○●"), "Bb5")).not.toContain("●● 2");
  });
  it("are not passed over where the design has them, among too many to try all", () => {
    // Of twelve holes, more than two from any step of the plain scale.
    const forked = "●○●●○●○●●○●●";
    const holes = Array.from({ length: 12 }, (_, i) => `{ at: ${150 + 15 * i}, diameter: 4 }`).join(", ");
    const text = tube(`mouth: ideal\nholes: [${holes}]\nfingerings: [{ note: G4, holes: ${forked} }]`);
    const { cents = Number.NaN } = analyse(documentOf(fileOf(text)).resolution.instrument).fingerings[0] ?? {};
    const semitones = Math.round(cents / 100);
    const near = noteFromMidi(67 + semitones)?.name ?? "";
    // In a pitch in which it is exactly this note, so that none of thousands comes nearer.
    const exact = `${text}pitchStandard: ${440 * 2 ** ((cents - 100 * semitones) / 1200)}\n`;
    const { found } = foundFor(exact, [near], CLOSEST);
    expect(found[0]?.fingerings.map(({ pattern }) => pattern)).toContain(forked);
  });
});

it("what sounds near a note is first estimated within some cents, and then all that sounds there", () => {
  const { instrument, air } = analyse(documentOf(fileOf(small(""))).resolution.instrument);
  const column = sharedColumn(instrument.body) ?? expect.fail("no column");
  const patterns = drained(patternSteps(2, [], true));
  const sounds = new ColumnSounds(column, air, patterns);
  const queries = patterns.flatMap((covers) => [1, 2, 3, 4, 5].map((register) => ({ index: 0, covers, register })));
  const all = soundingsOf(instrument.body, air, queries);
  let seen = 0;
  // Every 80 cents over two octaves: each way sounds near some of these.
  for (let hz = 380; hz < 1700; hz *= 2 ** (80 / 1200)) {
    let glimpses: readonly Glimpse[] = [];
    const found = drained(sounds.near(hz, (each) => (glimpses = each)));
    const there = queries.filter((_, i) => Math.abs(centsAbove(all[i]?.frequency ?? 1, hz)) <= 50);
    const inWords = ({ covers, register }: { covers: readonly unknown[]; register: number }) => `${covers} ${register}`;
    expect(found.map(inWords).sort()).toEqual(there.map(inWords).sort());
    for (const { covers, cents, resistance } of glimpses) {
      expect(Math.abs(cents)).toBeLessThanOrEqual(50);
      const sound = found.find((each) => each.covers === covers);
      if (sound === undefined) continue;
      seen++;
      expect(Math.abs(cents - centsAbove(sound.sounding.frequency, hz))).toBeLessThan(6);
      expect(resistance / sound.sounding.resistance).toBeGreaterThan(0.6);
      expect(resistance / sound.sounding.resistance).toBeLessThan(1.6);
    }
  }
  expect(seen).toBeGreaterThan(10);
});

describe("ways to cover the holes", () => {
  it("are all up to nine holes, or up to eleven without half ones", () => {
    const count = (holes: number, halves: boolean) => drained(patternSteps(holes, [], halves)).length;
    // 2^9 + 9 2^8 = 2816, 2^11 = 2048: below 3000. 2^10 + 10 2^9 and 2^12 are more.
    expect([count(9, true), count(11, false)]).toEqual([2816, 2048]);
    expect(count(10, true)).toBeLessThanOrEqual(3000);
    expect(count(12, false)).toBeLessThanOrEqual(3000);
  });
  it("are, where there are too many, all that differ in two holes from a known one or the plain scale, those first", () => {
    const known = [0, 1, 0, 1, 0, 1, 0, 1, 0, 1];
    for (const halves of [true, false]) {
      const length = halves ? 10 : 12;
      // A last number, that stops the foot, is none of a hole's.
      const own = [...known, 1, 0].slice(0, length);
      const found = drained(patternSteps(length, [[...own, 1]], halves));
      const plain = Array.from({ length: length + 1 }, (_, closed) => own.map((_, i) => (i < closed ? 1 : 0)));
      expect(found.slice(0, length + 2)).toEqual([own, ...plain]);
      const near = (covers: readonly number[]) =>
        [own, ...plain].some((from) => from.filter((each, i) => each !== covers[i]).length <= 2);
      const whole = Array.from({ length: 2 ** length }, (_, bits) => own.map((_, i) => (bits >> i) & 1));
      const half = whole.flatMap((covers) => covers.flatMap((each, i) => (each === 1 ? [covers.with(i, 0.9)] : [])));
      const expected = [...whole, ...(halves ? half : [])].filter(near);
      expect(expected.length).toBeLessThan(3000);
      expect(new Set(found.map(String))).toEqual(new Set(expected.map(String)));
    }
  });

  it.each([0, 1, 6, 8])("are all there are, with one half at most: %i holes", (holes) => {
    // Each open or closed: 2^n; one of n half, the others open or closed: n 2^(n−1).
    const all = drained(patternSteps(holes, [], true));
    expect(new Set(all.map(String)).size).toBe(2 ** holes + (holes * 2 ** holes) / 2);
    expect(all).toHaveLength(2 ** holes + (holes * 2 ** holes) / 2);
  });

  it("are kept to those near a known one where there are too many", () => {
    const forked = Array.from({ length: 16 }, (_, i) => i % 2);
    const all = drained(patternSteps(16, [forked], true)).map(String);
    expect(all.length).toBeLessThanOrEqual(3000);
    expect(new Set(all).size).toBe(all.length);
    for (const near of [forked, forked.with(3, 0), forked.with(0, 0.9).with(9, 0)]) expect(all).toContain(String(near));
    expect(all).toContain(String(Array.from({ length: 16 }, (_, i) => (i < 5 ? 1 : 0))));
  });
});

it("generates no more patterns of a hundred holes than it evaluates", () => {
  const known = Array.from({ length: 50 }, (_, n) => Array.from({ length: 100 }, (_, i) => (i < 2 * n ? 1 : 0)));
  const made = vi.spyOn(Array.prototype, "with");
  const all = drained(patternSteps(100, known, true));
  expect(all).toHaveLength(3000);
  expect(all.slice(0, 50)).toEqual(known);
  expect(made.mock.calls.length).toBeLessThan(20_000);
  // Others are let in after every fifty, not after each.
  const steps = [...patternSteps(100, known, true)].length;
  expect(steps).toBeGreaterThanOrEqual(3000 / 50);
  expect(steps).toBeLessThan(20_000 / 50);
  made.mockRestore();
});
