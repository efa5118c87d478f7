/** Notes heard, fingerings told. */
import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { matchNotes } from "../../server/src/listen/matchNotes.js";
import type { Candidate, Heard } from "../../server/src/listen/weighOffsets.js";

const DEGREES = [0, 200, 400, 500, 700, 900, 1100, 1200, 1400, 1600, 1700, 1900, 2100];
const NAMES = ["D5", "E5", "F#5", "G5", "A5", "B5", "C#6", "D6", "E6", "F#6", "G6", "A6", "B6"];
const whistle: Candidate[] = DEGREES.map((cents, i) => ({ name: NAMES[i] as string, cents: 500 + cents, against: 8 }));

const note = (cents: number, more: Partial<Heard> = {}): Heard => ({
  cents,
  uncertainty: 0.3,
  octave: { margin: 10 },
  changed: false,
  ...more,
});

/** Up and down the scale. */
const order = [...whistle.keys(), ...[...whistle.keys()].reverse()];
const played = (offset: number) => order.map((i) => note((whistle[i] as Candidate).cents + offset));

describe("matchNotes", () => {
  it("finds every fingering under any common offset of a semitone and more", () => {
    fc.assert(
      fc.property(
        fc.integer({ min: -130, max: 130 }),
        fc.array(fc.double({ min: -6, max: 6, noNaN: true }), { minLength: 26, maxLength: 26 }),
        (offset, lips) => {
          const heard = played(offset).map((each, i) => ({ ...each, cents: each.cents + (lips[i] as number) }));
          const { matches, offset: found } = matchNotes(heard, whistle, 40);
          expect(matches.map(({ fingering }) => fingering)).toEqual(order);
          expect(matches.every(({ question }) => question === undefined)).toBe(true);
          expect(Math.abs((found ?? Number.NaN) - offset)).toBeLessThan(7);
        },
      ),
      { numRuns: 8 },
    );
  });

  it("follows ten minutes of a scale up and down, whose evidence is beyond what a number holds", () => {
    const heard = Array.from({ length: 18 }, () => played(20)).flat();
    const { matches, offset } = matchNotes(heard, whistle, 40);
    expect(matches.map(({ fingering }) => fingering)).toEqual(Array.from({ length: 18 }, () => order).flat());
    expect(offset).toBeCloseTo(20, 6);
  });

  it("questions a note between two fingerings", () => {
    const heard = played(0);
    heard[5] = note((whistle[5] as Candidate).cents - 100);
    const { matches } = matchNotes(heard, whistle, 40);
    expect(matches[5]?.question).toBeDefined();
    expect(matches.filter(({ question }) => question !== undefined)).toHaveLength(1);
  });

  it("questions a note that lies apart from the others", () => {
    const heard = played(-20);
    heard[3] = note((whistle[3] as Candidate).cents + 28);
    expect(matchNotes(heard, whistle, 40).matches[3]?.question).toMatch(/G5 .*sharper than the others|G5 \(/);
  });

  it("questions a note whose octave neither its sound nor its place settles", () => {
    const two: Candidate[] = [0, 7].map((i) => whistle[i] as Candidate);
    const heard = [note(500, { octave: { margin: 0 }, changed: true })];
    expect(matchNotes(heard, two, 40).matches[0]?.question).toBeDefined();
  });

  it("questions the design where most notes fit none of its fingerings", () => {
    const heard = [0, 130, 260, 380, 490, 610, 750].map((cents) => note(500 + cents * 1.13 + 55));
    expect(matchNotes(heard, whistle.slice(0, 3), 40).doubtful).toBe(true);
  });

  it("says nothing of no notes", () => {
    expect(matchNotes([], whistle, 40)).toEqual({ matches: [], offset: undefined, doubtful: false });
  });
});
