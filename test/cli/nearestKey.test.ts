/** What the command line says where a key is not possible. */
import { readFileSync } from "node:fs";
import { join } from "node:path";
import { expect, it } from "vitest";
import { rekeyJson, rekeySummary } from "../../server/src/cli/rekey.js";
import { rekey } from "../../server/src/design/rekey/rekey.js";
import { parseNote } from "../../server/src/music/note.js";
import { fileOf } from "../support/designs.js";

const WHISTLE = readFileSync(join(import.meta.dirname, "../../examples/quay-whistle.bore.yaml"), "utf8");

function refitted(to: string) {
  const note = parseNote(to);
  if (note === undefined) throw new Error(to);
  return rekey(fileOf(WHISTLE), 0, note, "refit");
}

it("names the nearest possible key, in JSON as in words", () => {
  const result = refitted("D4");
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
