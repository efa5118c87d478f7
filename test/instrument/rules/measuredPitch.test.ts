/** Measured notes in hertz or in a tuner's cents. */
import { describe, expect, it } from "vitest";
import { checked, WHISTLE } from "../../support/designs.js";

const measuredIn = (entry: string, more = "") => checked(`${WHISTLE}${more}measured:\n  - ${entry}\n`);
const hz = (entry: string, more = "") => measuredIn(entry, more).analysis.instrument.measured[0]?.hz;

describe("a measured note", () => {
  it("in cents counts from equal temperament on the pitch standard, whatever the temperament", () => {
    // ISO 16: A4 440 Hz; 1200 cents an octave.
    expect(hz("{ note: A4, cents: 0 }")).toBe(440);
    expect(hz("{ note: A5, cents: -12 }")).toBeCloseTo(880 * 2 ** (-12 / 1200), 9);
    expect(hz("{ note: A4, cents: 10 }", "pitchStandard: 442\n")).toBeCloseTo(442 * 2 ** (10 / 1200), 9);
    const just = checked(
      `${WHISTLE.replace("tolerance: 10", "temperament: just")}measured: [{ note: B4, cents: 5 }]\n`,
    );
    expect(just.analysis.instrument.measured[0]?.hz).toBeCloseTo(440 * 2 ** (205 / 1200), 9);
  });

  it.each([
    ["{ note: A4 }", "schema/missing-property", /needs its pitch: `hz`, or `cents`/],
    ["{ note: A4, hz: 440, cents: 0 }", "measured/pitch-twice", /say the same thing twice/],
  ])("%s is told and not used", (entry, code, message) => {
    const { findings, analysis } = measuredIn(entry);
    expect(findings.filter((finding) => finding.code === code)).toEqual([
      expect.objectContaining({ severity: "error", message: expect.stringMatching(message) }),
    ]);
    expect(analysis.instrument.measured).toEqual([]);
  });
});
