/** The notes that one hole decides, from the analysis, for hovers and hints. */
import type { Analysis, FingeringPrediction } from "../design/predict/analysis.js";
import { governingHoleOf } from "../design/predict/governing.js";

export interface GovernedNote extends FingeringPrediction {
  /** Among the fingerings of the design. */
  readonly index: number;
}

/** The fingerings a hole governs, in the order of the design. */
export function governedBy(analysis: Analysis, hole: number): readonly GovernedNote[] {
  const groups = known.get(analysis) ?? byHole(analysis);
  known.set(analysis, groups);
  return groups.get(hole) ?? [];
}

/** Every hole's hint asks for it. */
const known = new WeakMap<Analysis, ReadonlyMap<number, readonly GovernedNote[]>>();

function byHole(analysis: Analysis): ReadonlyMap<number, readonly GovernedNote[]> {
  const groups = new Map<number, GovernedNote[]>();
  for (const note of numbered(analysis)) {
    const hole = governingHoleOf(analysis.instrument, note.fingering);
    if (hole === undefined) continue;
    const group = groups.get(hole);
    if (group === undefined) groups.set(hole, [note]);
    else group.push(note);
  }
  return groups;
}

export function numbered(analysis: Analysis): readonly GovernedNote[] {
  return analysis.fingerings.map((prediction, index) => ({ ...prediction, index }));
}

/** Of several predictions, the one farthest from its target; undefined where none has a deviation. */
export function worstOf<T extends FingeringPrediction>(
  predictions: readonly T[],
): (T & { readonly cents: number }) | undefined {
  let worst: (T & { readonly cents: number }) | undefined;
  for (const prediction of predictions) {
    const { cents } = prediction;
    if (cents === undefined) continue;
    if (worst === undefined || Math.abs(cents) > Math.abs(worst.cents)) worst = { ...prediction, cents };
  }
  return worst;
}
