/** A refit finds its way back from holes that lie and are bored anywhere near where they should. */
import { readFileSync } from "node:fs";
import { join } from "node:path";
import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { retune } from "../../../server/src/design/rekeyByRefit.js";
import { fileOf } from "../../support/designs.js";

/** The example with every place a plain number, so that each hole can be displaced by itself. */
const WHISTLE = readFileSync(join(import.meta.dirname, "../../../examples/quay-whistle.bore.yaml"), "utf8")
  .replace("at: =lower,", "at: 270.8,")
  .replace("at: =lower + gap,", "at: 289.6,")
  .replace("at: =lower + 2*gap + 13,", "at: 321.4,");
const TRIALS = 100;
const FARTHEST = 0.15;
const HOLE = /(name: \w+, at: )([\d.]+)(, diameter: )([\d.]+)/g;
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

describe("bringing a design in tune from afar", () => {
  it("comes back from holes displaced and resized by up to 15 %, in at least 99 of 100 seeded trials", () => {
    // The undisplaced whistle can be brought in tune; what is looked for exists.
    const tuned = retune(fileOf(WHISTLE), 0, "all").text;
    const share = fc.double({ min: -FARTHEST, max: FARTHEST, noNaN: true, noDefaultInfinity: true });
    // Sets that make no instrument do not count as trials; nearly nine of ten do not, for the holes lie as near as 15 % of their place.
    const sets = fc.sample(fc.noBias(fc.array(share, { minLength: 2 * HOLES, maxLength: 2 * HOLES })), {
      numRuns: 40 * TRIALS,
      seed: 4,
    });
    const trials = sets.flatMap((shares) => displaced(tuned, shares) ?? []).slice(0, TRIALS);
    expect(trials).toHaveLength(TRIALS);
    const missed = trials.filter((text) => {
      const { after } = retune(fileOf(text), 0, "all");
      const sounding = after.fingerings.every(({ cents }) => cents !== undefined && Math.abs(cents) <= 2);
      return !sounding;
    });
    expect(missed.length).toBeLessThanOrEqual(1);
  }, 300_000);
});
