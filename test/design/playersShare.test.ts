/** What a fingering says of the player beside open and closed: how far a hole is half closed, the foot under a hand, the breath. */
import { readFileSync } from "node:fs";
import { describe, expect, it } from "vitest";
import { calibrate } from "../../server/src/design/calibrate/calibrate.js";
import { analyse } from "../../server/src/design/predict/analyse.js";
import { octaveStretch } from "../../server/src/design/predict/response.js";
import { centsAbove } from "../../server/src/music/cents.js";
import { documentOf, fileOf } from "../support/designs.js";

const analysisOf = (text: string) => analyse(documentOf(fileOf(text)).resolution.instrument);
const hertz = (text: string) => analysisOf(text).fingerings.map(({ predictedHz = Number.NaN }) => predictedHz);
const example = (name: string) => readFileSync(`examples/${name}`, "utf8");

describe("a half-closed hole", () => {
  const playing = (name: string, fingerings: string) =>
    example(name).replace(/^fingerings:\n(?: .*\n)+/m, `fingerings:\n${fingerings}`);

  // Common practice, no source: players half-close the lowest hole for a semitone.
  it.each(["quay-whistle.bore.yaml", "ferry-flute.bore.yaml"])(
    "raises the lowest note of %s by about a semitone",
    (name) => {
      const [low = 0, half = 0] = hertz(
        playing(name, "  - { degree: 1, holes: ●●●●●● }\n  - { degree: b2, holes: ●●●●●◐ }\n"),
      );
      expect(centsAbove(half, low)).toBeGreaterThan(60);
      expect(centsAbove(half, low)).toBeLessThan(140);
    },
  );

  it("is closed as far as the fingering says", () => {
    const share = (cover: number) =>
      hertz(playing("quay-whistle.bore.yaml", `  - { degree: 2, holes: ●●●●●◐, halfCover: ${cover} }\n`))[0] ?? 0;
    expect(share(0.95)).toBeLessThan(share(0.85));
    expect(share(0.85)).toBeLessThan(share(0.5));
    expect(share(0.9)).toBe(hertz(playing("quay-whistle.bore.yaml", "  - { degree: 2, holes: ●●●●●◐ }\n"))[0]);
  });
});

describe("a foot that the player stops", () => {
  const pipe = (foot: string, fingering: string) => `borewright: 1
family: duct
key: C5
mouth: { window: { width: 7, cutUp: 3.5 } }
bore: [ { at: 0, diameter: 9.5 }, { at: 273, diameter: 9.5 } ]
wall: 2
${foot}holes: [ { name: T, at: 191, diameter: 5.5, side: back }, { name: L1, at: 231, diameter: 5.5 } ]
fingerings: [ ${fingering} ]
`;

  it("sounds as if the tube were stopped there, for that note alone", () => {
    const [closed = 0, open = 0] = hertz(pipe("", "{ note: D4, holes: ●●, foot: stopped }, { note: D5, holes: ●● }"));
    const [stopped = 0] = hertz(pipe("foot: stopped\n", "{ note: D4, holes: ●● }"));
    const [plain = 0] = hertz(pipe("", "{ note: D5, holes: ●● }"));
    expect(Math.abs(centsAbove(closed, stopped))).toBeLessThan(0.1);
    expect(open).toBe(plain);
  });

  it("overblows to the twelfth", () => {
    const analysis = analysisOf(pipe("", "{ note: D4, holes: ●●, foot: stopped }, { note: D5, holes: ●● }"));
    // Beyond the ideal tube's 3 : 1 and 2 : 1 by what the window does to both alike.
    for (const index of [0, 1]) expect(Math.abs(octaveStretch(analysis, index) ?? Number.NaN)).toBeLessThan(40);
  });
});

describe("a breath that rises", () => {
  const vessel = (breath: string, fingering = "", measured = "") => `borewright: 1
family: vessel
key: C5
air: { temperature: 22 }
mouth: { window: { width: 10, cutUp: 5 } }
vessel: { shape: ellipsoid, length: 62, width: 44, height: 40 }
wall: 3
holes: [ { name: R1, diameter: 4, angle: 90 } ]
${breath}fingerings:
  - { note: C5, holes: ●${fingering} }
  - { note: D5, holes: ○ }
${measured}`;
  const cents = (text: string) => analysisOf(text).fingerings.map(({ cents: each = Number.NaN }) => each);

  it("moves what each note is meant to sound at an even breath, from the lowest to the highest", () => {
    const [low = 0, high = 0] = cents(vessel(""));
    const [bentLow = 0, bentHigh = 0] = cents(vessel("breath: { lowest: -40, highest: 30 }\n"));
    expect(bentLow - low).toBeCloseTo(-40, 6);
    expect(bentHigh - high).toBeCloseTo(30, 6);
  });

  it("goes by a fingering's own word where it has one", () => {
    const [low = 0] = cents(vessel(""));
    expect((cents(vessel("breath: { lowest: -40 }\n", ", breath: 15"))[0] ?? 0) - low).toBeCloseTo(15, 6);
  });

  it("is taken out of measured notes before the mouth is fitted to them", () => {
    const [c5 = 0, d5 = 0] = hertz(vessel(""));
    const bent = (hz: number, by: number) => hz * 2 ** (by / 1200);
    const played = `measured: [ { note: C5, hz: ${bent(c5, -40)}, temperature: 22 }, { note: D5, hz: ${bent(d5, 30)}, temperature: 22 } ]\n`;
    const text = vessel("breath: { lowest: -40, highest: 30 }\n", "", played);
    expect(calibrate(documentOf(fileOf(text)).resolution, analysisOf(text)).rmsBeforeCents).toBeLessThan(1e-6);
  });
});
