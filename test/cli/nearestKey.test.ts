/** What the command line says where a key is not possible. */
import { readFileSync } from "node:fs";
import { join } from "node:path";
import { expect, it } from "vitest";
import { rekeyJson, rekeySummary } from "../../server/src/cli/rekey.js";
import { rekey } from "../../server/src/design/rekey/rekey.js";
import { parseNote } from "../../server/src/music/note.js";
import { fileOf } from "../support/designs.js";

const WHISTLE = readFileSync(join(import.meta.dirname, "../../examples/quay-whistle.bore.yaml"), "utf8");

function refitted(to: string, text = WHISTLE) {
  const note = parseNote(to);
  if (note === undefined) throw new Error(to);
  return rekey(fileOf(text), 0, note, "refit");
}

it("names the nearest possible key, in JSON as in words", () => {
  const result = refitted("Eb4");
  const { nearestKey, obstacles } = JSON.parse(rekeyJson("quay-whistle.bore.yaml", result));
  expect(parseNote(nearestKey)?.midi).toBeGreaterThan(62);
  expect(obstacles[0]).toMatchObject({ unit: "mm" });
  expect(rekeySummary(result).join("\n")).toContain(`or take key ${nearestKey}.`);
});

it("names no nearest key where the one asked for is possible", () => {
  const { nearestKey, obstacles } = JSON.parse(rekeyJson("quay-whistle.bore.yaml", refitted("A4")));
  expect(nearestKey).toBeNull();
  expect(obstacles).toEqual([]);
});

it("offers no other key where a note stays out of tolerance by a cent or two", () => {
  const cylinder = (tolerance: number) =>
    refitted("F4", WHISTLE.replace(/refit:.*\n/, "").replace("tolerance: 10", `tolerance: ${tolerance}`));
  const left = Math.abs(cylinder(30).after.summary?.worstCents ?? Number.NaN);
  const said = (tolerance: number) => cylinder(tolerance).remarks.filter((remark) => remark.startsWith("Held back by"));
  const little = said(left - 1);
  expect(little).not.toHaveLength(0);
  expect(little.filter((remark) => remark.includes("or take"))).toEqual([]);
  for (const remark of said(left - 3)) expect(remark).toMatch(/, or take (another key|key .*)\.$/);
});
