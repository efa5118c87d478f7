/** Notes that do not follow the trend of the others, by a line through medians (Theil and Sen): a third of wrong notes does not mislead it. */
import { median } from "../sound/median.js";

/** Fewer notes have no trend. */
const FEWEST = 4;
/** Notes closer than this, octaves, say nothing about the slope; none is steeper than this many cents per octave. */
const NEAR = 0.15;
const STEEPEST = 60;
/** Cents apart, and median deviations apart, from which a note is reported. */
const APART = 30;
const APART_DEVIATIONS = 6;

/** Cents off the trend, of each note that lies apart; undefined for the others. */
export function apartFromOthers(
  notes: readonly { readonly octaves: number; readonly difference: number }[],
): readonly (number | undefined)[] {
  if (notes.length < FEWEST) return notes.map(() => undefined);
  const slopes = notes.flatMap((a, i) =>
    notes
      .slice(i + 1)
      .filter((b) => Math.abs(b.octaves - a.octaves) > NEAR)
      .map((b) => (b.difference - a.difference) / (b.octaves - a.octaves)),
  );
  const slope = slopes.length === 0 ? 0 : Math.max(-STEEPEST, Math.min(STEEPEST, median(slopes)));
  const middle = median(notes.map(({ octaves, difference }) => difference - slope * octaves));
  const off = notes.map(({ octaves, difference }) => difference - slope * octaves - middle);
  const allowed = Math.max(APART, APART_DEVIATIONS * median(off.map(Math.abs)));
  return off.map((cents) => (Math.abs(cents) > allowed ? cents : undefined));
}
