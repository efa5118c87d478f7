/** `borewright response FILE…`: how well every fingering answers, and the impedance curve of one. */
import type { Analysis } from "../design/predict/analysis.js";
import {
  evennessOf,
  impedanceCurve,
  type NoteResponse,
  octaveStretch,
  responsesOf,
} from "../design/predict/response.js";
import { signedCents } from "../design/wording.js";
import { table } from "../escape/table.js";
import { parseNote } from "../music/note.js";
import { breathLines, breathReport, noteBreathReport } from "./breath.js";
import { UnusableInput } from "./exitStatus.js";

/** Hz: from below the lowest note of a bass flute to where a narrow bore is no longer one-dimensional. */
const CURVE = { from: 60, to: 4000, points: 800 } as const;

export function responseReport(file: string, analysis: Analysis) {
  const responses = responsesOf(analysis);
  return {
    file,
    name: analysis.instrument.name ?? null,
    fingerings: analysis.fingerings.map(({ fingering, predictedHz }, i) => ({
      note: fingering.target?.name ?? null,
      holes: fingering.pattern ?? null,
      register: fingering.register,
      predictedHz: predictedHz ?? null,
      strengthDecibels: responses[i]?.strength ?? null,
      quality: responses[i]?.quality ?? null,
      octaveStretchCents: octaveStretch(analysis, i) ?? null,
      cutOffHz: responses[i] === undefined ? null : lowestCutOff(responses[i]),
      breath: noteBreathReport(analysis, i),
    })),
    evenness: evennessOf(analysis),
    breath: breathReport(analysis),
  };
}

export function responseTable(file: string, analysis: Analysis): readonly string[] {
  const { fingerings } = responseReport(file, analysis);
  const rows = fingerings.map((own) => [
    own.note ?? "?",
    own.holes ?? "?",
    String(own.register),
    own.strengthDecibels?.toFixed(0) ?? "–",
    own.quality?.toFixed(0) ?? "–",
    own.octaveStretchCents === null ? "–" : signedCents(own.octaveStretchCents),
    own.cutOffHz?.toFixed(0) ?? "–",
  ]);
  const body = table(
    ["note", "holes", "register", "depth dB", "Q", "octave stretch", "cut-off Hz"],
    ["left", "left", "right", "right", "right", "right", "right"],
    rows,
  );
  const even = evennessOf(analysis).map(
    ({ register, notes, meanStrength, strengthSpread, cutOffSpread }) =>
      `Register ${register}, ${notes} notes: ${meanStrength.toFixed(0)} dB deep ±${strengthSpread.toFixed(1)}` +
      `${cutOffSpread === undefined ? "" : `, cut-off ±${(100 * cutOffSpread).toFixed(0)} %`}.`,
  );
  return [analysis.instrument.name ?? file, ...body, ...even, ...breathLines(analysis)];
}

/** The curve as comma-separated values, with a heading. @throws UnusableInput where the design has no such note */
export function responseCurve(file: string, analysis: Analysis, note: string): readonly string[] {
  const wanted = parseNote(note);
  const index = analysis.fingerings.findIndex(({ fingering }) => fingering.target?.midi === wanted?.midi);
  if (wanted === undefined || index < 0)
    throw new UnusableInput(file, `has no fingering for ${JSON.stringify(note)}: --curve takes one of its notes`);
  const lines = impedanceCurve(analysis, index, CURVE).map(({ frequency, decibels, phase }) =>
    [frequency.toFixed(2), decibels.toFixed(2), phase.toFixed(1)].join(","),
  );
  return ["hz,decibels,phase", ...lines];
}

function lowestCutOff({ cutOffs }: NoteResponse): number | null {
  return cutOffs.length === 0 ? null : Math.min(...cutOffs.map(({ frequency }) => frequency));
}
