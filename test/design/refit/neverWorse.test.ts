/** When a refit is taken in place of what was drawn: made up analyses, of which only the deviations count. */
import { describe, expect, it } from "vitest";
import type { Analysis } from "../../../server/src/design/predict/analysis.js";
import { isNoticeablyNearer, isWorthHaving, leftAsItWas } from "../../../server/src/design/refit/neverWorse.js";

/** A note that does not sound is undefined. */
const analysis = (cents: readonly (number | undefined)[], tolerance = 10) =>
  ({
    tolerance,
    fingerings: cents.map((each) => ({ cents: each })),
    summary: { count: cents.length },
  }) as unknown as Analysis;
interface Said {
  readonly isInTune?: boolean;
  readonly keptLimits?: boolean;
  readonly discomfort?: number;
  readonly keepsNotes?: boolean;
}
const isTaken = (
  before: readonly (number | undefined)[],
  after: readonly (number | undefined)[],
  { isInTune = false, keptLimits = true, discomfort, keepsNotes = true }: Said = {},
) =>
  isWorthHaving(
    analysis(before),
    analysis(after),
    { isInTune, keptLimits, ...(discomfort === undefined ? {} : { discomfort }) },
    keepsNotes,
  );

describe("a refit", () => {
  it("is taken in tune for any gain, and out of tune for one that is heard: half a cent, or a twentieth", () => {
    expect(isTaken([2.1], [1.9], { isInTune: true })).toBe(true);
    expect([isTaken([6], [5.4]), isTaken([6], [5.6])]).toEqual([true, false]);
    expect([isTaken([-40], [37.9]), isTaken([-40], [38.1])]).toEqual([true, false]);
    // All notes nearer, the worst as far.
    expect(isTaken([-20, 20, 8], [-20, 3, 3])).toBe(true);
  });
  it("is not taken where the worst note or all together are farther off, by more than anybody is shown", () => {
    const inTune = { isInTune: true };
    expect([isTaken([1, -5], [0, 5.1], inTune), isTaken([1, -5], [0, 5.04], inTune)]).toEqual([false, true]);
    expect(isTaken([5, 0, 0], [-4.9, 4.9, 0], inTune)).toBe(false);
    expect(isTaken([], [], inTune)).toBe(true);
  });
  it("may lose a note only where notes need not be kept; one that never sounded is not lost", () => {
    expect([isTaken([9, 9], [1, undefined]), isTaken([9, 9], [1, undefined], { keepsNotes: false })]).toEqual([
      false,
      true,
    ]);
    expect(isTaken([9, undefined], [1, undefined])).toBe(true);
    // One that sounds only now does not count against it.
    expect(isTaken([9, undefined], [1, 70])).toBe(true);
  });
  it("mends a broken limit at any price but another note", () => {
    const broken = { keptLimits: false };
    expect([isTaken([6], [6], broken), isTaken([50], [50], broken), isTaken([51], [51], broken)]).toEqual([
      true,
      true,
      false,
    ]);
    // A note that far off must come nearer by a third.
    expect([isTaken([90], [59], broken), isTaken([90], [61], broken)]).toEqual([true, false]);
    expect(isTaken([6, 6], [1, undefined], broken)).toBe(false);
  });
  it("costs notes within the tolerance no comfort beyond what they gain, in cents squared", () => {
    const inTune = { isInTune: true };
    // Two notes, 6 and 8 cents off, in tune after: 100 gained.
    expect(isTaken([6, 8], [0, 0], { ...inTune, discomfort: 99 })).toBe(true);
    expect(isTaken([6, 8], [0, 0], { ...inTune, discomfort: 101 })).toBe(false);
    expect(isTaken([6, 8], [0, 0.5], { ...inTune, discomfort: 99.9 })).toBe(false);
    expect(isTaken([6, 10], [0, 0], { ...inTune, discomfort: 150 })).toBe(false);
    expect(isTaken([6, 10.1], [0, 0], { ...inTune, discomfort: 150 })).toBe(true);
    expect(isTaken([6, 8], [6, 8], { ...inTune, discomfort: -1 })).toBe(true);
  });
});

it("far off, nearer is by a third of what it was", () => {
  expect([isNoticeablyNearer([200], [133]), isNoticeablyNearer([200], [134])]).toEqual([true, false]);
  // Nearer than another note, a twentieth is enough.
  expect([isNoticeablyNearer([52.7], [50]), isNoticeablyNearer([52.5], [50])]).toEqual([true, false]);
});

it("what is left as it was says how far off that is, where anything sounds", () => {
  const said = (worstCents?: number) =>
    leftAsItWas({ summary: worstCents === undefined ? undefined : { worstCents } } as Analysis);
  expect(said(-12)).toBe(
    "Nothing is changed: what can be reached within the limits is no closer than what is drawn (worst 12 cents flat).",
  );
  expect(said()).toBe("Nothing is changed: what can be reached within the limits is no closer than what is drawn.");
});
