/** A survey as a design: key and fingerings, which no mesh shows, are proposed by what the rest predicts. */
import { readDesign } from "../../document/read.js";
import { centsAbove } from "../../music/cents.js";
import { type Note, noteFromMidi, parseNote } from "../../music/note.js";
import type { Survey } from "../../survey/surveyed.js";
import { type AnalyseOptions, analyse } from "../predict/analyse.js";
import type { Analysis } from "../predict/analysis.js";
import { type AnalysisSettings, DEFAULT_SETTINGS } from "../settings.js";
import { type DesignUnit, type Proposal, type ProposedFingering, surveyText } from "./surveyText.js";

export interface SurveyedDesign {
  readonly text: string;
  readonly analysis: Analysis;
}

/** Steps of the major scale, plain, lowered and raised, by semitones above the key. */
const DEGREES = ["1", "b2", "2", "b3", "3", "4", "#4", "5", "b6", "6", "b7", "7"] as const;
const MAJOR = 7;
/** The key until something is predicted, and where nothing is. */
const MIDDLE = "C5";
/** Beyond this many holes, opening one after the other is not a way to play it. */
const MOST_HOLES = 24;

/** @throws Cancelled */
export function surveyedDesign(
  survey: Survey,
  name: string,
  unit: DesignUnit,
  settings: AnalysisSettings = DEFAULT_SETTINGS,
  options: AnalyseOptions = {},
): SurveyedDesign {
  const first = { key: MIDDLE, fingerings: openedInTurn(survey), pipeNotes: [] };
  const predicted = analysisOf(surveyText(survey, name, unit, first), settings, options);
  const text = surveyText(survey, name, unit, proposalOf(first.fingerings, predicted));
  return { text, analysis: analysisOf(text, settings, options) };
}

function analysisOf(text: string, settings: AnalysisSettings, options: AnalyseOptions): Analysis {
  const [document] = readDesign(text, "yaml").documents;
  if (document === undefined) throw new Error("a surveyed design has no document");
  return analyse(document.resolution.instrument, settings, options);
}

/** From all closed to all open, from the foot upward (of a vessel in the order of the holes); overblown as far as a tube does. */
function openedInTurn({ body }: Survey): readonly ProposedFingering[] {
  if (body.kind === "pipes" || body.holes.length > MOST_HOLES) return [];
  const count = body.holes.length;
  const fromFoot = body.kind === "tube";
  const row = (open: number) =>
    fromFoot ? "●".repeat(count - open) + "○".repeat(open) : "○".repeat(open) + "●".repeat(count - open);
  const low = Array.from({ length: count + 1 }, (_, open) => ({ degree: "1", holes: row(open), register: 1 }));
  if (!isOverblown(body)) return low;
  return [...low, ...low.slice(0, count).map((each) => ({ ...each, register: 2 }))];
}

function isOverblown(body: Exclude<Survey["body"], { kind: "pipes" }>): boolean {
  if (body.kind === "vessel" || body.foot === "stopped") return false;
  // A two-chamber flute plays one octave. Common practice, no source.
  return body.mouth.kind !== "window" || !body.mouth.isTwoChamber;
}

/** The key is the lowest note, with every hole closed; of pipes that of the longest. */
function proposalOf(fingerings: readonly ProposedFingering[], predicted: Analysis): Proposal {
  const midis = predicted.fingerings.map(({ predictedHz }) =>
    predictedHz === undefined ? undefined : nearest(predictedHz),
  );
  const lowest = Math.min(...midis.flatMap((midi) => midi ?? []));
  const key = noteFromMidi(lowest) ?? (parseNote(MIDDLE) as Note);
  return {
    key: key.name,
    fingerings: fingerings.flatMap((each, i) => {
      const midi = midis[i];
      return midi === undefined ? [] : [{ ...each, degree: degreeOf(midi - key.midi) }];
    }),
    pipeNotes: midis.map((midi) => noteFromMidi(midi ?? key.midi)?.name ?? key.name),
  };
}

function nearest(hz: number): number {
  return Math.round(69 + centsAbove(hz, 440) / 100);
}

function degreeOf(semitones: number): string {
  const octaves = Math.floor(semitones / 12);
  const step = DEGREES[semitones % 12] ?? "1";
  const number = Number(step.replace(/\D/g, "")) + MAJOR * octaves;
  return `${step.replace(/\d/g, "")}${number}`;
}
