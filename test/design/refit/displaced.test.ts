/** A refit finds its way back from holes that lie and are bored anywhere near where they should. */
import { readFileSync } from "node:fs";
import { join } from "node:path";
import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { retune } from "../../../server/src/design/refit/rekeyByRefit.js";
import { syntaxOf } from "../../../server/src/document/read.js";
import { fileOf } from "../../support/designs.js";

const example = (name: string) => readFileSync(join(import.meta.dirname, "../../../examples", name), "utf8");
/**
 * Examples with every place a plain number, so that each hole can be displaced by itself; trials, and how many may fail. A hundred of each were
 * tried by hand: one of the whistle missed; these are the first of them.
 */
const DESIGNS: readonly (readonly [name: string, text: string, trials: number, mayMiss: number])[] = [
  [
    "quay-whistle.bore.yaml",
    example("quay-whistle.bore.yaml")
      .replace("at: =lower,", "at: 270.8,")
      .replace("at: =lower + gap,", "at: 289.6,")
      .replace("at: =lower + 2*gap + 13,", "at: 321.4,"),
    25,
    0,
  ],
  ["ferry-flute.bore.yaml", example("ferry-flute.bore.yaml"), 25, 0],
  ["pier-notch-flute.bore.json", example("pier-notch-flute.bore.json"), 25, 0],
];
const FARTHEST = 0.15;
const HOLE = /("?name"?: "?\w+"?, "?at"?: )([\d.]+)(, "?diameter"?: )([\d.]+)/g;
const HOLES = 6;

/** Places and sizes each by their share; undefined where holes would change their order or run into one another: no instrument. */
function displaced(text: string, shares: readonly number[]): string | undefined {
  let edge = 0;
  let sound = true;
  let i = 0;
  const changed = text.replace(HOLE, (_, name: string, at: string, between: string, diameter: string) => {
    const place = Number(at) * (1 + (shares[i++] ?? 0));
    const width = Number(diameter) * (1 + (shares[i++] ?? 0));
    if (place - width / 2 <= edge) sound = false;
    edge = place + width / 2;
    return `${name}${place.toFixed(1)}${between}${width.toFixed(1)}`;
  });
  return sound ? changed : undefined;
}

describe("bringing a design into tune from afar", () => {
  it.each(DESIGNS)(
    "%s comes back from holes displaced and resized by up to 15 %",
    (name, text, count, mayMiss) => {
      const file = (design: string) => fileOf(design, syntaxOf(name));
      expect([...text.matchAll(HOLE)]).toHaveLength(HOLES);
      // The undisplaced design can be brought into tune; what is looked for exists.
      const tuned = retune(file(text), 0, "all").text;
      const share = fc.double({ min: -FARTHEST, max: FARTHEST, noNaN: true, noDefaultInfinity: true });
      // Sets that make no instrument do not count as trials; nearly nine of ten do not, for the holes lie as near as 15 % of their place.
      const sets = fc.sample(fc.noBias(fc.array(share, { minLength: 2 * HOLES, maxLength: 2 * HOLES })), {
        numRuns: 40 * count,
        seed: 4,
      });
      const trials = sets.flatMap((shares) => displaced(tuned, shares) ?? []).slice(0, count);
      expect(trials).toHaveLength(count);
      const missed = trials.filter((design) => {
        const { after } = retune(file(design), 0, "all");
        const sounding = after.fingerings.every(({ cents }) => cents !== undefined && Math.abs(cents) <= 2);
        return !sounding;
      });
      expect(missed.length).toBeLessThanOrEqual(mayMiss);
    },
    300_000,
  );
});
