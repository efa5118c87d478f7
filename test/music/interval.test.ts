/** Names of intervals: common practice, no source. */
import { expect, it } from "vitest";
import { intervalName } from "../../server/src/music/interval.js";

it.each([
  [0, "unison"],
  [1, "minor second"],
  [2, "major second"],
  [3, "minor third"],
  [4, "major third"],
  [5, "perfect fourth"],
  [6, "tritone"],
  [7, "perfect fifth"],
  [8, "minor sixth"],
  [9, "major sixth"],
  [10, "minor seventh"],
  [11, "major seventh"],
  [12, "octave"],
  [16, "octave and a major third"],
  [24, "2 octaves"],
  [27, "2 octaves and a minor third"],
])("%i semitones, up or down, are one %s", (semitones, name) => {
  expect(intervalName(semitones)).toBe(name);
  expect(intervalName(-semitones)).toBe(name);
});
