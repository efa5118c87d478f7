/**
 * What a refit promises, on the examples: every limit holds in the file as written, and a note beyond 2 cents never goes without
 * what is in the way, with its numbers. A sample of the keys of `npm run refit-report`, which goes through them all.
 */
import { readFileSync } from "node:fs";
import { join } from "node:path";
import { describe, expect, it } from "vitest";
import { readDesign, syntaxOf } from "../../../server/src/document/read.js";
import { octaveRow } from "../../support/octave.js";

const EXAMPLES = join(import.meta.dirname, "../../../examples");
/** Semitones from the own key where limits can be met, near and far, and where they cannot. Four up, two expressions of the whistle share a parameter. */
const KEYS: Readonly<Record<string, readonly number[]>> = {
  "quay-whistle.bore.yaml": [10, 4, -2, -9],
  "ferry-flute.bore.yaml": [9, 2, -1, -7],
  "pier-notch-flute.bore.json": [7, -3, -10],
  "gull-first-print.bore.yaml": [5, -4],
  "breakwater-pipes.bore.yaml": [12, -12],
  "lantern-vessel.bore.yaml": [12, 4, -7],
  "harbour-mist-flute.bore.yaml": [4, -6],
};

describe.each(Object.entries(KEYS))("%s refitted", (name, keys) => {
  const file = readDesign(readFileSync(join(EXAMPLES, name), "utf8"), syntaxOf(name));

  it.each(keys)(
    "by %i semitones keeps every limit as written, and every note within its tolerance or says why not",
    (semitones) => {
      const row = octaveRow(file, semitones);
      expect(row?.refusal).toBeUndefined();
      expect(row?.broken).toEqual([]);
      const { after, obstacles = [] } = row?.result ?? {};
      const worst = Math.abs(after?.summary?.worstCents ?? Number.NaN);
      if (obstacles.length === 0) expect(worst).toBeLessThanOrEqual(after?.tolerance ?? 0);
      else expect(worst).toBeGreaterThan(after?.tolerance ?? 0);
      for (const { needed, limit, message } of obstacles) {
        expect(Number.isFinite(needed) && Number.isFinite(limit)).toBe(true);
        expect(message).toMatch(/\d/);
      }
    },
  );
});
