/** What is `fixed`, or is not to change, is named where it is what keeps the notes from coming in tune. */
import { readFileSync } from "node:fs";
import { expect, it } from "vitest";
import { retune } from "../../../server/src/design/refit/rekeyByRefit.js";
import { rekey } from "../../../server/src/design/rekey/rekey.js";
import { parseNote } from "../../../server/src/music/note.js";
import { fileOf } from "../../support/designs.js";

const WHISTLE = readFileSync("examples/quay-whistle.bore.yaml", "utf8");
/** Two centimetres shorter than its notes want. */
const short = (more = "") => WHISTLE.replace("at: 394.6, diameter: =tube }", `at: 370, diameter: =tube${more} }`);
const first = (text: string, freedom: "all" | "holes") => retune(fileOf(text), 0, freedom).obstacles[0];

it("a `fixed` foot, with where the notes need it, as the file has it", () => {
  const { message, advice, needed = 0, limit } = first(short(", fixed: true"), "all") ?? {};
  expect(message).toMatch(/^the foot is `fixed` at 370 mm, but these notes need it at 39\d(\.\d)? mm$/);
  expect(advice).toBe("let it move (without `fixed`)");
  expect(needed).toBeGreaterThan((limit ?? 0) + 20);
});

it("a bore that must not change, where it is what keeps a note off", () => {
  expect(retune(fileOf(short()), 0, "holes").remarks.join()).toMatch(/G4 cannot be reached.*Let the bore change, too/);
});

it("nothing of what is fixed where the notes are in tune with it", () => {
  expect(
    retune(
      fileOf(WHISTLE.replace("at: 394.6, diameter: =tube }", "at: 394.6, diameter: =tube, fixed: true }")),
      0,
      "all",
    ).obstacles,
  ).toEqual([]);
});

it("a tube's note within the tolerance, but far, says which limit or which two notes keep it there", () => {
  const overtone = fileOf(readFileSync("test/jobs/overtone.bore.yaml", "utf8"));
  const note = parseNote("Bb3");
  if (note === undefined) throw new Error("Bb3");
  const { remarks, obstacles } = rekey(overtone, 0, note, "refit");
  expect(obstacles).toEqual([]);
  // No holes: nothing but the bore's length is free, and harmonics of one tube keep their intervals.
  expect(remarks.join(" ")).toMatch(
    /Within the tolerance of 25 cents, .*F6 stays 20 cents sharp and Bb4 stays 20 cents flat/,
  );
});
