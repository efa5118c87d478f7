/** The breath of every note, as `borewright response` prints it. */
import { drained } from "../acoustics/steps.js";
import type { Analysis } from "../design/predict/analysis.js";
import { breathOf, type NoteBreath } from "../design/predict/breath.js";
import {
  airText,
  breathCaveat,
  breathText,
  needMoreText,
  slopeText,
  voicingText,
} from "../design/predict/breathWording.js";
import { nameOfFingering } from "../design/predict/governing.js";
import { voicingEffectSteps } from "../design/predict/voicingEffect.js";
import { table } from "../escape/table.js";
import { bodyTraits } from "../instrument/families/bodyTraits.js";

/** Null where nothing can be said. */
export function noteBreathReport(analysis: Analysis, index: number) {
  const note = breathOf(analysis)?.notes[index];
  if (note === undefined) return null;
  return {
    speaksFromPa: note.from,
    ordinaryPa: note.ordinary,
    centsPerTenPercent: note.centsPerTenth ?? null,
    inTuneAtPa: note.inTuneAt ?? null,
    leavesRegisterAtPa: note.leavesAt ?? null,
    airMillilitresPerSecond: note.air * 1e6,
    wantsMore: note.needsMore,
  };
}

/** Of the whole instrument: what the estimate stands on, and what windway and cut-up do to its lowest note. */
export function breathReport(analysis: Analysis) {
  const breath = breathOf(analysis);
  if (breath === undefined) return null;
  return {
    estimate: breathCaveat(breath),
    stillLips: breath.lips,
    assumed: breath.assumed,
    lowest: breath.lowest,
    voicing: drained(voicingEffectSteps(analysis)).map(({ size, step, after }) => ({
      size,
      largerByMm: step * 1000,
      speaksFromPa: after.from,
      ordinaryPa: after.ordinary,
      centsPerTenPercent: after.centsPerTenth ?? null,
      airMillilitresPerSecond: after.air * 1e6,
    })),
  };
}

type Column = readonly [name: string, text: (note: NoteBreath) => string];

const NO_ESTIMATE =
  "Breath: no estimate for vessels; their losses at the edge decide, and no measurement was found to check those against.";

/** Empty where nothing can be said. */
export function breathLines(analysis: Analysis): readonly string[] {
  const breath = breathOf(analysis);
  if (breath === undefined) return bodyTraits(analysis.instrument.body).breathIsEstimated ? [] : ["", NO_ESTIMATE];
  const nameOf = (index: number) => {
    const prediction = analysis.fingerings[index];
    return prediction === undefined ? "?" : nameOfFingering(prediction);
  };
  const lowest = nameOf(breath.lowest);
  const or = (value: number | undefined, text: (value: number) => string) => (value === undefined ? "–" : text(value));
  const columns: readonly Column[] = [
    ["speaks from", ({ from }) => breathText(from)],
    ["ordinary", ({ ordinary }) => breathText(ordinary)],
    ["+10 %, cents", ({ centsPerTenth }) => or(centsPerTenth, slopeText)],
    // A player's lips do what these would tell.
    ...(breath.lips
      ? []
      : ([
          [`in tune with ${lowest}`, ({ inTuneAt }) => or(inTuneAt, breathText)],
          ["leaves register", ({ leavesAt }) => or(leavesAt, breathText)],
        ] satisfies Column[])),
    ["air ml/s", ({ air }) => airText(air)],
  ];
  const rows = breath.notes.flatMap((note, index) => {
    const { pattern } = analysis.fingerings[index]?.fingering ?? {};
    return note === undefined ? [] : [[nameOf(index), pattern ?? "?", ...columns.map(([, text]) => text(note))]];
  });
  const needing = needMoreText(breath, nameOf);
  return [
    "",
    `Breath. ${breathCaveat(breath)}`,
    ...table(
      ["note", "holes", ...columns.map(([name]) => name)],
      ["left", "left", ...columns.map(() => "right" as const)],
      rows,
    ),
    ...(needing === undefined ? [] : [needing]),
    ...drained(voicingEffectSteps(analysis)).map((effect) => voicingText(effect, lowest, analysis.instrument)),
  ];
}
