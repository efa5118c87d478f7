/** Intervals by their names. Common practice, no source. */
import { t } from "../words/translation.js";

/** Of semitones within the octave, from the unison. */
const NAMES = [
  "unison",
  "minor second",
  "major second",
  "minor third",
  "major third",
  "perfect fourth",
  "tritone",
  "perfect fifth",
  "minor sixth",
  "major sixth",
  "minor seventh",
  "major seventh",
] as const;

/** `major second`, `octave`, `2 octaves and a minor third`, of a number of semitones up or down. */
export function intervalName(semitones: number): string {
  const size = Math.abs(semitones);
  const octaves = Math.floor(size / 12);
  const rest = t(NAMES[size % 12] ?? "unison");
  if (octaves === 0) return rest;
  const whole = octaves === 1 ? t("octave") : t`${octaves} octaves`;
  return size % 12 === 0 ? whole : t`${whole} and a ${rest}`;
}
