/** When a key is refused, and what is said of it: made up analyses, of which only deviations and targets count. */
import { describe, expect, it } from "vitest";
import type { Analysis } from "../../../server/src/design/predict/analysis.js";
import { isOutOfReach } from "../../../server/src/design/refit/outOfReach.js";

/** Notes a tone apart, the first the lowest. */
const analysis = (kind: "tube" | "pipes", cents: readonly (number | undefined)[], worstCents?: number) =>
  ({
    instrument: { body: { kind } },
    tolerance: 10,
    fingerings: cents.map((each, i) => ({ cents: each, targetHz: 400 * 2 ** (i / 6) })),
    summary: worstCents === undefined ? undefined : { worstCents },
  }) as unknown as Analysis;
const isRefused = (
  cents: readonly (number | undefined)[],
  {
    kind = "tube" as "tube" | "pipes",
    was = 0 as number | undefined,
    own = [was] as readonly (number | undefined)[],
    left = [] as readonly number[],
    impossible = [] as readonly number[],
  } = {},
) => isOutOfReach(analysis(kind, own, was), analysis(kind, cents), left, new Set(impossible));

describe("a key is out of reach", () => {
  it("where a note stays farther off than half a semitone, either way", () => {
    expect([isRefused([3, 51]), isRefused([3, -51]), isRefused([50, -50, 3])]).toEqual([true, true, false]);
    expect(isRefused([3, undefined])).toBe(false);
  });
  it("but not where the design was as far off in its own", () => {
    expect([isRefused([80, 60], { was: -80 }), isRefused([80, 60], { was: -79 })]).toEqual([false, true]);
    expect(isRefused([80], { was: undefined })).toBe(true);
  });
  it("unless what is left aside is not its lowest note and the rest are in tune", () => {
    expect([isRefused([3, 90, 2], { left: [1] }), isRefused([3, 90, 12], { left: [1] })]).toEqual([false, true]);
    expect(isRefused([90, 3, 2], { left: [0] })).toBe(true);
  });
  it("where a note is left aside that it had in its own key", () => {
    const aside = (own: readonly (number | undefined)[]) => isRefused([3, 90, 2], { own, left: [1] });
    expect([aside([0, 50, 0]), aside([0, -50, 0])]).toEqual([true, true]);
    expect([aside([0, 51, 0]), aside([0, undefined, 0])]).toEqual([false, false]);
  });
  it("but not for a note that is impossible in any key, the lowest included", () => {
    expect([
      isRefused([3, 1200, 12], { left: [1], impossible: [1] }),
      isRefused([1200, 3], { impossible: [0] }),
    ]).toEqual([false, false]);
    expect(isRefused([3, 1200, 60], { left: [1], impossible: [1] })).toBe(true);
  });
  it("of pipes, each cut for itself, where the lowest or more than a third of them are", () => {
    const of = (...cents: number[]) => isRefused(cents, { kind: "pipes" });
    expect([of(0, 90, 0), of(0, 90, 90), of(0, 90, 0, 90, 0, 0), of(90, 0, 0, 0)]).toEqual([false, true, false, true]);
    expect(of(0, 0, 0)).toBe(false);
  });
});
