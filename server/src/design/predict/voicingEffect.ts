/** The effect of windway and cut-up on the breath of the lowest note. */
import type { Column } from "../../acoustics/column.js";
import type { Steps } from "../../acoustics/steps.js";
import { sharedColumn } from "../../instrument/body.js";
import type { Instrument } from "../../instrument/model.js";
import { analysisSteps } from "./analyse.js";
import type { Analysis } from "./analysis.js";
import { breathSteps, type NoteBreath } from "./breath.js";
import { blowingOf } from "./voicing.js";

/** m: what a maker adds with a few strokes of the file. */
const STEPS = { height: 0.1e-3, cutUp: 0.5e-3 } as const;

export interface VoicingEffect {
  readonly size: keyof typeof STEPS;
  /** By how much it is larger, m. */
  readonly step: number;
  readonly before: NoteBreath;
  /** With that size larger and all else the same. */
  readonly after: NoteBreath;
}

/** Of the lowest note of a flute with a window; empty for others. */
export function* voicingEffectSteps(analysis: Analysis): Steps<readonly VoicingEffect[]> {
  const { instrument, temperature, tolerance } = analysis;
  const breath = yield* breathSteps(analysis);
  const before = breath?.notes[breath.lowest];
  const lowest = breath && analysis.fingerings[breath.lowest]?.fingering;
  const column = sharedColumn(instrument.body);
  if (before === undefined || lowest === undefined || column === undefined) return [];
  const effects: VoicingEffect[] = [];
  for (const size of ["height", "cutUp"] as const) {
    const changed = larger(instrument, column, size);
    if (changed === undefined) return [];
    const alone = yield* analysisSteps({ ...changed, fingerings: [lowest] }, { temperature, tolerance });
    const after = (yield* breathSteps(alone, breath?.rise))?.notes[0];
    if (after !== undefined) effects.push({ size, step: STEPS[size], before, after });
  }
  return effects;
}

function larger(instrument: Instrument, column: Column, size: keyof typeof STEPS): Instrument | undefined {
  const { mouth } = column;
  if (mouth.kind !== "window" || instrument.body.kind !== "tube") return undefined;
  if (size === "cutUp") {
    const changed = { ...column, mouth: { ...mouth, cutUp: mouth.cutUp + STEPS.cutUp } };
    return { ...instrument, body: { ...instrument.body, column: changed } };
  }
  const height = (blowingOf(instrument, column)?.voicing.height ?? 0) + STEPS.height;
  return { ...instrument, windway: { ...instrument.windway, height } };
}
