/** Which notes a refit leaves aside so that they do not spoil the rest, and what is said of each. */
import { afterEach, describe, expect, it, vi } from "vitest";
import type { Analysis } from "../../../server/src/design/predict/analysis.js";
import type { Asking, Written } from "../../../server/src/design/refit/judgedRefit.js";
import { leftAsideInWords, restIsInTune, withoutTheImpossible } from "../../../server/src/design/refit/leftAside.js";
import type { RefitTargets } from "../../../server/src/design/refit/refit.js";
import type { StillRefit } from "../../../server/src/design/refit/refitUntilStill.js";
import { tube } from "../../support/marked.js";
import { asking, obstacle, readFrom, standIn } from "../../support/standInRefit.js";

afterEach(() => vi.restoreAllMocks());

/** Harmonics of one tube, right at 430 mm within 15 cents, some 30 flat at 438 and 60 flat at 445; half a semitone is another note. */
const HARMONICS = ["G4", "G5, register: 2", "D6, register: 3", "G6, register: 4"];
/** Of the second register: 300 and 200 cents sharper than the note that it plays. */
const [E5, F5] = ["E5, register: 2", "F5, register: 2"];
const at = (foot: number, notes: readonly string[] = [...HARMONICS, E5]): Written =>
  readFrom(
    tube(`tolerance: 20
bore: [{ at: 0, diameter: 16 }, { at: ${foot}, diameter: 16 }]
fingerings:
${notes.map((note) => `  - { note: ${note} }\n`).join("")}`),
  );
const whole = (after: Written): StillRefit => ({
  edits: [],
  moves: [],
  isTaken: true,
  after,
  obstacles: () => [obstacle(99)],
});
/** What is left aside, and where the foot is then; `find` answers for the notes that are still wanted. */
function left(
  there: Written,
  after: Written,
  find: (aside: readonly number[]) => number,
  more: Partial<Asking> = {},
  goal: Partial<RefitTargets> = {},
) {
  vi.restoreAllMocks();
  const asideIn = ({ targets }: RefitTargets) => targets.flatMap((each, i) => (each === undefined ? [i] : []));
  const goals = standIn((asked, _, foot) => {
    const found = find(asideIn(asked));
    return found === foot ? {} : { foot: found };
  });
  const found = withoutTheImpossible(there, asking(there, more, goal), whole(after));
  const asked = goals.map(asideIn).filter((each, i, all) => each.join() !== all[i - 1]?.join());
  return { left: found.left, after: found.refit.after, asked, obstacles: found.refit.obstacles() };
}

describe("a note that pulls the others with it", () => {
  it("is left aside where the rest come near without it, and what is in the way of all stays told", () => {
    const found = left(at(404), at(445), (aside) => (aside.includes(4) ? 430 : 445));
    expect(found.left).toEqual([4]);
    expect(found.after.file.text).toBe(at(430).file.text);
    expect(found.asked).toEqual([[4]]);
    expect(found.obstacles).toEqual([obstacle(99)]);
  });
  it("is the second farthest where the rest come no nearer without the farthest", () => {
    // With its hole closed the tube is to play two notes; midway the upper is 157 flat, and the lower 143 sharp.
    const notes = ["B4, holes: o", "B4, holes: o", "B4, holes: o", "G4, holes: x", "E4, holes: x"];
    const holed = (foot: number) =>
      readFrom(at(foot, notes).file.text.replace("fingerings:", "holes: [{ at: 333, diameter: 13 }]\nfingerings:"));
    const found = left(holed(470), holed(470), (aside) => (aside.includes(4) ? 430 : 470));
    expect([found.left, found.asked]).toEqual([[4], [[3], [4]]]);
    expect(found.after.file.text).toBe(holed(430).file.text);
  });
  it("is not left aside where the rest stay half a semitone off, or come no nearer", () => {
    // 79 cents off with it. Without it 49, or 51.
    const nearer = (foot: number) => left(at(404), at(450), (aside) => (aside.includes(4) ? foot : 450));
    expect(nearer(442.8).left).toEqual([4]);
    const off = nearer(443.4);
    expect([off.left, off.asked]).toEqual([[], [[4], [0]]]);
    expect(off.after.file.text).toBe(at(450).file.text);
    expect(left(at(404), at(438), () => 438).left).toEqual([]);
  });
  it("must stand out: three times as far off as the middle one", () => {
    const notes = ["G4", "G5, register: 2", E5, F5];
    const found = left(at(404, notes), at(430, notes), () => 430);
    expect([found.left, found.asked]).toEqual([[], []]);
  });
  it("is not looked for once the work is spent, nor where no note is far off", () => {
    const spent = left(at(404), at(445), () => 430, {}, { isSpent: () => true });
    expect([spent.left, spent.asked]).toEqual([[], []]);
    const near = left(at(404, HARMONICS), at(438, HARMONICS), () => 430);
    expect([near.left, near.asked]).toEqual([[], []]);
  });
  it("is told beside those that no dimensions bring together, which count for nothing", () => {
    const notes = [...HARMONICS, E5, F5];
    const there = at(404, notes);
    const targets = there.analysis.fingerings.map(({ targetHz }, i) => (i === 5 ? undefined : targetHz));
    const more = { left: new Set([5]) };
    const found = left(there, at(445, notes), (aside) => (aside.includes(4) ? 430 : 445), more, { targets });
    expect([found.left, found.asked]).toEqual([[5, 4], [[4, 5]]]);
    expect(left(there, at(445, notes), () => 445, more, { targets }).left).toEqual([5]);
  });
});

describe("a few notes far off", () => {
  it("are left aside at once where the rest are in tune as they are", () => {
    const found = left(at(404), at(430), () => 430);
    expect([found.left, found.asked]).toEqual([[4], []]);
    expect(found.after.file.text).toBe(at(430).file.text);
  });
  it("are left aside together where neither alone serves", () => {
    const notes = [...HARMONICS, "B6, register: 5", E5, F5];
    const found = left(at(438, notes), at(438, notes), (aside) => (aside.length > 1 ? 430 : 438));
    expect([found.left, found.asked]).toEqual([
      [5, 6],
      [[5], [6], [5, 6]],
    ]);
    // Three of seven are not a few.
    const many = [...HARMONICS, "F#5, register: 2", E5, F5];
    const three = left(at(438, many), at(438, many), (aside) => (aside.length > 1 ? 430 : 438));
    expect(three.left).toEqual([]);
  });
  it("lay apart before: they are asked about though none stands out", () => {
    // The search for all has gone to where all are off alike: 170 flat, and 134 sharp.
    const asked = (there: Written, foot: number, notes?: readonly string[]) => {
      const { left: found, asked } = left(there, at(475, notes), (aside) => (aside.length > 0 ? foot : 475));
      return [found, asked];
    };
    expect(asked(at(430), 430)).toEqual([[4], [[4]]]);
    expect(asked(at(438), 430)).toEqual([[], []]);
    // Flat as well as sharp; and not where they are more than a third.
    const flat = [...HARMONICS, "Bb5, register: 2"];
    expect(asked(at(430, flat), 430, flat)).toEqual([[4], [[4]]]);
    const two = [...HARMONICS, E5, F5];
    expect(asked(at(430, two), 430, two)).toEqual([[4, 5], [[4, 5]]]);
    const many = [...HARMONICS.slice(0, 3), E5, F5];
    expect(asked(at(430, many), 430, many)).toEqual([[], []]);
  });
  it("lay apart before, those aside that are in nobody's way already", () => {
    const notes = [...HARMONICS, E5, F5];
    const there = at(430, notes);
    const targets = there.analysis.fingerings.map(({ targetHz }, i) => (i === 5 ? undefined : targetHz));
    const found = left(there, at(475, notes), () => 430, { left: new Set([5]) }, { targets });
    expect([found.left, found.asked]).toEqual([[5, 4], [[4, 5]]]);
  });
  it("are asked about first where they lay apart before", () => {
    const there = at(430);
    const served = left(there, at(445), () => 430);
    expect([served.left, served.asked]).toEqual([[4], [[4]]]);
  });
});

it("the rest are in tune within the tolerance", () => {
  const notes = at(430).analysis;
  expect([restIsInTune(notes, [4]), restIsInTune(notes, []), restIsInTune(at(438).analysis, [4])]).toEqual([
    true,
    false,
    false,
  ]);
});

describe("of a note left aside it is said", () => {
  const said = (
    analysis: Analysis,
    index = 4,
    more: Partial<Parameters<typeof leftAsideInWords>[3]> = {},
    alone = false,
  ) => leftAsideInWords(analysis, [index], new Set(alone ? [index] : []), { freedom: "all", isTaken: true, ...more });
  const { analysis } = at(430);
  const changed = (more: Partial<Analysis["fingerings"][number]>): Analysis => ({
    ...analysis,
    fingerings: analysis.fingerings.map((each, i) => (i === 4 ? { ...each, ...more } : each)),
  });

  it("how far off it stays, and what became of the rest", () => {
    expect(said(analysis)).toEqual([
      "E5 cannot be reached: it would stay 307 cents sharp. It is left aside, and the rest are brought into tune. Give it another fingering, or leave it out.",
    ]);
    const off = at(438).analysis;
    expect(said(off).join()).toMatch(/It is left aside, and the rest come closer, though not into tune\. Give it/);
    expect(said(off, 4, { isTaken: false }).join()).toMatch(/It is left aside\. Give it/);
    expect(said(changed({ cents: undefined })).join()).toMatch(
      /^E5 cannot be reached: it has no resonance\. It is left/,
    );
  });
  it("nothing where it is in tune by chance, or has no target", () => {
    expect(said(analysis, 0)).toEqual([]);
    expect(said(changed({ cents: 20 }))).toEqual([]);
    expect(said(changed({ cents: -20.5 }))).toHaveLength(1);
    expect(said(changed({ targetHz: undefined }))).toEqual([]);
  });
  it("that the bore might change, where it was held and would help", () => {
    const advice = /Let the bore change, too, give it another fingering, or leave it out\.$/;
    expect(said(analysis, 4, { freedom: "holes" }).join()).toMatch(advice);
    expect(said(analysis, 4, { freedom: "holes" }, true).join()).not.toMatch(advice);
  });
  it("which register of its fingering lies near it, its own aside", () => {
    const third = at(430, [...HARMONICS, "G5, register: 3"]).analysis;
    expect(said(third).join()).toMatch(
      /\. Register 2 of that fingering lies near it, 6\.\d cents sharp: say so \(register: 2\)\.$/,
    );
    // 100 cents from the second register is not near.
    expect(said(at(430, [...HARMONICS, "F#5, register: 1"]).analysis).join()).toMatch(/leave it out\.$/);
    // Its own register is the one that cannot serve.
    expect(said(changed({ cents: 40, targetHz: 783.99 })).join()).toMatch(/leave it out\.$/);
    const { fingering } = third.fingerings[4] as Analysis["fingerings"][number];
    const withoutHoles = third.fingerings.map((each) => ({ ...each, fingering: { ...fingering, covers: undefined } }));
    expect(said({ ...third, fingerings: withoutHoles } as Analysis).join()).toMatch(/leave it out\.$/);
  });
});
