/** The user's settings, as any client may send them. */
import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { INITIAL_SETTINGS, readSettings } from "../../server/src/language/settings.js";

describe("readSettings", () => {
  it("takes what is given and keeps the defaults for the rest", () => {
    const { settings, complaints } = readSettings({ tolerance: 5, inlayHints: { holes: false } });
    expect(complaints).toEqual([]);
    expect(settings.analysis).toEqual({ ...INITIAL_SETTINGS.analysis, tolerance: 5 });
    expect(settings.inlayHints).toEqual({ fingerings: true, holes: false });
  });

  it.each([
    ["tolerance", { tolerance: "ten" }],
    ["tolerance", { tolerance: 0 }],
    ["tolerance", { tolerance: Number.NaN }],
    ["airTemperature", { airTemperature: 300 }],
    ["inlayHints.fingerings", { inlayHints: { fingerings: "no" } }],
    ["codeLens.enabled", { codeLens: { enabled: 1 } }],
    ["rules", { rules: ["pitch/out-of-tune"] }],
    ["rules", { rules: { "pitch/out-of-tun": "off" } }],
    ["rules", { rules: { "file/syntax": "off" } }],
    ['rules["pitch/out-of-tune"]', { rules: { "pitch/out-of-tune": "loud" } }],
  ])("says which setting it cannot use: %s", (name, section) => {
    const { settings, complaints } = readSettings(section);
    expect(settings).toEqual(INITIAL_SETTINGS);
    expect(complaints).toHaveLength(1);
    expect(complaints[0]).toContain(`borewright.${name}`);
  });

  it("takes the severity of findings, and of several entries those that can be used", () => {
    const rules = { "pitch/out-of-tune": "off", "hole/overlap": "off", "response/weak-note": 3 };
    const { settings, complaints } = readSettings({ rules });
    expect(settings.rules).toEqual({ "pitch/out-of-tune": "off" });
    expect(complaints).toHaveLength(2);
  });

  it("treats missing settings as defaults, without a log line", () => {
    for (const section of [undefined, null, {}, { tolerance: null }]) {
      expect(readSettings(section)).toEqual({ settings: INITIAL_SETTINGS, complaints: [] });
    }
  });

  it("never throws and never accepts an invalid number, whatever is sent", () => {
    fc.assert(
      fc.property(fc.anything(), fc.anything(), (tolerance, airTemperature) => {
        const { analysis } = readSettings({ tolerance, airTemperature }).settings;
        expect(analysis.tolerance).toBeGreaterThan(0);
        expect(Number.isFinite(analysis.temperature)).toBe(true);
      }),
    );
    fc.assert(fc.property(fc.anything(), (section) => void readSettings(section)));
  });
});
