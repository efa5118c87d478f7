/** Which part of the instrument decides a fingering's pitch. */
import type { Cover } from "../../acoustics/column.js";
import { bodyTraits } from "../../instrument/families/bodyTraits.js";
import type { Fingering, Instrument } from "../../instrument/model.js";
import { t } from "../../words/translation.js";
import type { Analysis, FingeringPrediction } from "./analysis.js";

/** A hole that is more covered than this is a vent rather than the end of the sounding column. */
const VENT_COVER = 0.5;

/**
 * Index of the hole that decides the pitch: the open hole nearest the mouth (common practice, no source), half-closed ones
 * only where no hole is fully open. Undefined with every hole closed: then the bore's length decides.
 */
export function governingHole(covers: readonly Cover[]): number | undefined {
  const [open, half] = [covers.findIndex(isOpen), covers.findIndex((cover) => cover < 1)];
  return [open, half].find((index) => index >= 0);
}

/**
 * Whether the uppermost hole alone is opened to help the octave speak (common practice, no source): it lies near the octave's pressure node, so that
 * the whole length decides the note as with every hole closed. Two holes below it at least stay closed.
 */
export function isVentedOctave(covers: readonly Cover[], register: number): boolean {
  const [uppermost = 1, ...others] = covers;
  return register === OCTAVE && uppermost < 1 && others.length >= 2 && others.every((cover) => cover === 1);
}

/** Register of the octave above a tube's lowest note. */
const OCTAVE = 2;

/**
 * As `governingHole`, in any family and register. In a vessel every open hole counts alike wherever it is, and the one to change is the one that a player
 * opens last: open in the fewest fingerings, of several the last listed (common practice, no source).
 */
export function governingHoleOf(
  { body, fingerings }: Instrument,
  { covers, register }: Pick<Fingering, "covers" | "register">,
): number | undefined {
  if (covers === undefined) return undefined;
  if (bodyTraits(body).governedBy !== "hole opened last")
    return isVentedOctave(covers, register) ? undefined : governingHole(covers);
  const uses = usesOf(fingerings);
  const open = covers.flatMap((cover, hole) => (isOpen(cover) ? [hole] : []));
  const half = covers.flatMap((cover, hole) => (cover < 1 ? [hole] : []));
  return (open.length > 0 ? open : half).reduce<number | undefined>(
    (last, hole) => (last === undefined || (uses[hole] ?? 0) <= (uses[last] ?? 0) ? hole : last),
    undefined,
  );
}

/** In how many fingerings each hole is open. Counted once for all that ask: every fingering does, and every hole for each. */
function usesOf(fingerings: Instrument["fingerings"]): readonly number[] {
  const known = counted.get(fingerings);
  if (known !== undefined) return known;
  const uses: number[] = [];
  for (const { covers = [] } of fingerings)
    covers.forEach((cover, hole) => {
      uses[hole] = (uses[hole] ?? 0) + (isOpen(cover) ? 1 : 0);
    });
  counted.set(fingerings, uses);
  return uses;
}

const counted = new WeakMap<Instrument["fingerings"], readonly number[]>();

function isOpen(cover: Cover): boolean {
  return cover < VENT_COVER;
}

export interface Governed {
  /** Undefined: the bore's length, the pipe's, or the size of the vessel. */
  readonly hole: number | undefined;
  /** Indices into `analysis.fingerings`, of fingerings with both target and prediction; worst deviation first. */
  readonly fingerings: readonly number[];
}

/** Groups the predicted fingerings by what decides them: holes from the mouth on, the bore's length last. */
export function governedFingerings(analysis: Analysis): readonly Governed[] {
  const groups = new Map<number | undefined, number[]>();
  if (bodyTraits(analysis.instrument.body).notesApart)
    return analysis.fingerings.flatMap(({ cents }, index) =>
      cents === undefined ? [] : [{ hole: undefined, fingerings: [index] }],
    );
  analysis.fingerings.forEach((prediction, index) => {
    if (prediction.cents === undefined) return;
    const hole = governingHoleOf(analysis.instrument, prediction.fingering);
    const group = groups.get(hole);
    if (group === undefined) groups.set(hole, [index]);
    else group.push(index);
  });
  const deviation = (index: number) => Math.abs(analysis.fingerings[index]?.cents ?? 0);
  return [...groups]
    .map(([hole, fingerings]) => ({ hole, fingerings: fingerings.sort((a, b) => deviation(b) - deviation(a)) }))
    .sort((a, b) => (a.hole ?? Number.POSITIVE_INFINITY) - (b.hole ?? Number.POSITIVE_INFINITY));
}

/** `A4`, or `G5 (register 2)` where one fingering pattern plays several. */
export function nameOfFingering(prediction: FingeringPrediction): string {
  return prediction.fingering.target?.name ?? prediction.fingering.pattern ?? t("this fingering");
}
