/** A refit stops wherever it is when told to. */
import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { Cancelled } from "../../../server/src/acoustics/cancelled.js";
import { retune } from "../../../server/src/design/refit/rekeyByRefit.js";
import { rekey } from "../../../server/src/design/rekey/rekey.js";
import { DEFAULT_SETTINGS } from "../../../server/src/design/settings.js";
import { parseNote } from "../../../server/src/music/note.js";
import { fileOf, THREE_HOLES, WHISTLE } from "../../support/designs.js";
import { foundIn } from "../../support/found.js";

/** Small, so that many stops cost little; neither bed takes the lower key. */
const TUBE = `${THREE_HOLES}tolerance: 5\nprint: { bed: [300, 60, 60] }\n`;
const ROW = `borewright: 1
family: panpipe
key: G4
wall: 2
pipes: [{ note: G4, length: 208.5, diameter: 15 }, { note: B4, length: 163.6, diameter: 15 }, { note: D5, length: 137.8, diameter: 12 }]
print: { bed: [215, 60, 60] }
`;
const [A4, D4] = [parseNote("A4"), parseNote("D4")];
if (A4 === undefined || D4 === undefined) throw new Error("no note");

type Work = (shouldStop: () => boolean) => unknown;
const works: readonly (readonly [string, Work])[] = [
  [
    "a refit with obstacles, and its search for the nearest key",
    (shouldStop) => {
      const found = foundIn(() => rekey(fileOf(TUBE), 0, A4, "refit", DEFAULT_SETTINGS, { shouldStop }));
      expect(found.remarks.join()).toMatch(/^.*Held back by: .*, or take key [A-G]/);
    },
  ],
  [
    "bringing the holes into tune",
    (shouldStop) => retune(fileOf(WHISTLE), 0, "holes", DEFAULT_SETTINGS, { shouldStop }),
  ],
  [
    "a refit of pipes",
    (shouldStop) => foundIn(() => rekey(fileOf(ROW), 0, D4, "refit", DEFAULT_SETTINGS, { shouldStop })),
  ],
];

describe.each(works)("%s", (_, work) => {
  it("ends with Cancelled whenever it is told to stop", () => {
    let polls = 0;
    work(() => {
      polls++;
      return false;
    });
    expect(polls).toBeGreaterThan(10);
    const stopAt = (n: number) => {
      let asked = 0;
      expect(() => work(() => ++asked >= n)).toThrow(Cancelled);
      // Nothing goes on, or catches it, once it was told.
      expect(asked).toBe(n);
    };
    stopAt(1);
    stopAt(polls);
    fc.assert(fc.property(fc.integer({ min: 1, max: polls }), stopAt), { numRuns: 3, seed: 4 });
  });
});
