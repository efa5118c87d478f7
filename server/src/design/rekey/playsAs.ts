/** The key an instrument plays in as a whole, whatever it was meant for. */
import type { Resolution } from "../../instrument/model.js";
import { centsAbove } from "../../music/cents.js";
import { type Note, noteFromMidi } from "../../music/note.js";
import type { Analysis } from "../predict/analysis.js";
import { keyOf } from "./asIf.js";
import { targetsIn } from "./targetsIn.js";

export interface PlaysAs {
  readonly key: Note;
  /** How far the notes lie above this key's on average. */
  readonly cents: number;
  /** How far the farthest note lies from that. */
  readonly scatterCents: number;
  /** The keys below and above it, if the pitch is between two; `key` is the closer of them. */
  readonly between: readonly [Note, Note] | undefined;
}

/** Within this many cents a size counts as the note's own; the smallest difference listeners hear is about 5. */
export const ON_THE_NOTE = 5;
const SEMITONE = 100;

/** Undefined where nothing sounds, or the key would not be a note. @param among indices of the fingerings that count; left out, all */
export function playsAs(resolution: Resolution, analysis: Analysis, among?: ReadonlySet<number>): PlaysAs | undefined {
  const own = keyOf(resolution.instrument);
  const off = own === undefined ? [] : deviationsIn(resolution, analysis, own, among);
  if (own === undefined || off.length === 0) return undefined;
  // In an unequal temperament a step is not exactly a semitone, so the neighbours are tried, too.
  const guess = own.midi + Math.round(meanOf(off) / SEMITONE);
  const keys = [guess, guess - 1, guess + 1].flatMap((midi) => (midi === own.midi ? own : (noteFromMidi(midi) ?? [])));
  const means = keys.flatMap((key) => {
    const cents = deviationsIn(resolution, analysis, key, among);
    if (cents.length === 0) return [];
    const mean = meanOf(cents);
    return [{ key, cents: mean, scatterCents: Math.max(...cents.map((each) => Math.abs(each - mean))) }];
  });
  const [nearest] = means.sort((a, b) => Math.abs(a.cents) - Math.abs(b.cents));
  if (nearest === undefined) return undefined;
  const other = noteFromMidi(nearest.key.midi + Math.sign(nearest.cents));
  const isOn = Math.abs(nearest.cents) <= ON_THE_NOTE || other === undefined;
  return { ...nearest, between: isOn ? undefined : nearest.cents < 0 ? [other, nearest.key] : [nearest.key, other] };
}

/** Deviations of what sounds from the targets that it would have in a key, cents. */
function deviationsIn(
  resolution: Resolution,
  { fingerings }: Analysis,
  key: Note,
  among: ReadonlySet<number> | undefined,
): readonly number[] {
  return targetsIn(resolution, key).flatMap((target, i) => {
    const sounds = fingerings[i]?.predictedHz;
    return target === undefined || sounds === undefined || among?.has(i) === false ? [] : centsAbove(sounds, target);
  });
}

function meanOf(values: readonly number[]): number {
  return values.reduce((sum, each) => sum + each, 0) / values.length;
}
