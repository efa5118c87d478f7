/** A refit stops wherever it is when told to. */
import { readFileSync } from "node:fs";
import { join } from "node:path";
import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { Cancelled } from "../../../server/src/acoustics/cancelled.js";
import { retune } from "../../../server/src/design/refit/rekeyByRefit.js";
import { rekey } from "../../../server/src/design/rekey/rekey.js";
import { DEFAULT_SETTINGS } from "../../../server/src/design/settings.js";
import { syntaxOf } from "../../../server/src/document/read.js";
import { parseNote } from "../../../server/src/music/note.js";
import { fileOf } from "../../support/designs.js";
import { foundIn } from "../../support/found.js";

const design = (name: string) =>
  fileOf(readFileSync(join(import.meta.dirname, "../../../examples", name), "utf8"), syntaxOf(name));
const C4 = parseNote("C4");
if (C4 === undefined) throw new Error("C4");

type Work = (shouldStop: () => boolean) => unknown;
const works: readonly (readonly [string, Work])[] = [
  [
    "a refit with obstacles, and its search for the nearest key",
    (shouldStop) =>
      foundIn(() => rekey(design("quay-whistle.bore.yaml"), 0, C4, "refit", DEFAULT_SETTINGS, { shouldStop })),
  ],
  [
    "bringing the holes into tune",
    (shouldStop) => retune(design("quay-whistle.bore.yaml"), 0, "holes", DEFAULT_SETTINGS, { shouldStop }),
  ],
  [
    "a refit of pipes",
    (shouldStop) =>
      foundIn(() => rekey(design("breakwater-pipes.bore.yaml"), 0, C4, "refit", DEFAULT_SETTINGS, { shouldStop })),
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
