import { describe, expect, it } from "vitest";
import { TEMPERAMENT_NAMES, temperamentCents } from "../../server/src/music/temperament.js";

/**
 * Cents above C. Werckmeister III agrees with the table published on tonalsoft's encyclopedia for C♯, F♯ and G♯; Kirnberger
 * III and Vallotti with a published table of deviations from equal temperament to 0.01; the others follow from their
 * definitions and were computed by an independent script (project's shared reference, music.py).
 */
const TABLE: Record<string, readonly number[]> = {
  equal: [0, 100, 200, 300, 400, 500, 600, 700, 800, 900, 1000, 1100],
  pythagorean: [0, 113.685, 203.91, 294.135, 407.82, 498.045, 611.73, 701.955, 815.64, 905.865, 996.09, 1109.775],
  meantone: [0, 76.049, 193.157, 310.265, 386.314, 503.422, 579.471, 696.578, 772.627, 889.735, 1006.843, 1082.892],
  "werckmeister-3": [0, 90.225, 192.18, 294.135, 390.225, 498.045, 588.27, 696.09, 792.18, 888.27, 996.09, 1092.18],
  "kirnberger-3": [0, 90.225, 193.157, 294.135, 386.314, 498.045, 590.224, 696.578, 792.18, 889.735, 996.09, 1088.269],
  vallotti: [0, 94.135, 196.09, 298.045, 392.18, 501.955, 592.18, 698.045, 796.09, 894.135, 1000, 1090.225],
  just: [0, 111.731, 203.91, 315.641, 386.314, 498.045, 590.224, 701.955, 813.686, 884.359, 1017.596, 1088.269],
};

/** A published table of deviations from equal temperament with A = 0 (verified copy in the project's shared reference). */
const DEVIATIONS: Record<string, readonly number[]> = {
  "kirnberger-3": [10.27, 0.49, 3.42, 4.4, -3.42, 8.31, 0.49, 6.84, 2.44, 0, 6.36, -1.47],
  vallotti: [5.87, 0, 1.96, 3.91, -1.96, 7.82, -1.96, 3.91, 1.96, 0, 5.87, -3.91],
};

describe("temperaments", () => {
  it("has a table for each name", () => {
    expect(Object.keys(TABLE).sort()).toEqual([...TEMPERAMENT_NAMES].sort());
  });

  it.each(TEMPERAMENT_NAMES)("%s is the published row to 0.001 cent", (name) => {
    temperamentCents(name).forEach((cents, i) => {
      expect(Math.abs(cents - (TABLE[name]?.[i] ?? Number.NaN))).toBeLessThan(0.001);
    });
  });

  it.each(Object.keys(DEVIATIONS) as ("vallotti" | "kirnberger-3")[])("%s deviates from equal as published", (name) => {
    const row = temperamentCents(name);
    row.forEach((cents, i) => {
      const deviation = cents - 100 * i - ((row[9] ?? 0) - 900);
      expect(Math.abs(deviation - (DEVIATIONS[name]?.[i] ?? Number.NaN))).toBeLessThan(0.011);
    });
  });
});
