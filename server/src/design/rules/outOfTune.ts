/**
 * pitch/out-of-tune: a fingering farther from its note than the tolerance. Said where the change belongs: on the hole that
 * decides the pitch, or on the bore's length for notes with every hole closed; on the pipe's length in a pan pipe.
 */
import type { Finding, RelatedPlace, RuleCode } from "../../instrument/finding.js";
import type { Analysis, FingeringPrediction } from "../analysis.js";
import { type Governed, governedFingerings, nameOfFingering } from "../governing.js";
import { footPlace, holeChanges } from "../holeChange.js";
import { holeName, remedyInWords, wholeRemedyInWords } from "../remedy.js";
import { pipeChange, vesselChange } from "../wholeChange.js";
import { centsInWords, deviationInWords, drawnLength } from "../wording.js";
import type { Rule } from "./rule.js";

export const OUT_OF_TUNE: RuleCode = "pitch/out-of-tune";

/** Farther than half a semitone, another note is nearer: not out of tune but wrong. Cents. */
const ANOTHER_NOTE = 50;

/** What a fix needs to know; travels with the diagnostic. */
export interface OutOfTuneData {
  /** Index of the hole; absent where the length of bore or pipe decides, or the size of a vessel. */
  readonly hole?: number;
  /** Indices of the fingerings it decides, worst first. */
  readonly fingerings: readonly number[];
}

export const outOfTune: Rule = {
  code: OUT_OF_TUNE,
  title: "notes farther from their pitch than the tolerance",
  check: (analysis) => governedFingerings(analysis).flatMap((governed) => findingFor(analysis, governed) ?? []),
};

function findingFor(analysis: Analysis, governed: Governed): Finding | undefined {
  const isOut = (index: number) => Math.abs(analysis.fingerings[index]?.cents ?? 0) > analysis.tolerance;
  const worstIndex = governed.fingerings[0];
  const worst = worstIndex === undefined ? undefined : analysis.fingerings[worstIndex];
  if (worstIndex === undefined || worst?.cents === undefined || !isOut(worstIndex)) return undefined;
  const data: OutOfTuneData = {
    ...(governed.hole === undefined ? {} : { hole: governed.hole }),
    fingerings: governed.fingerings,
  };
  const remedy = governed.hole === undefined ? wholeRemedy(analysis, worstIndex) : holeRemedy(analysis, governed);
  return {
    code: OUT_OF_TUNE,
    severity: Math.abs(worst.cents) > ANOTHER_NOTE ? "error" : "warning",
    message: [whatSounds(worst, worst.cents), remedy, conflict(analysis, governed)].filter(Boolean).join(" "),
    path: placeToChange(analysis, governed.hole, worstIndex),
    related: governed.fingerings.filter(isOut).flatMap((index) => relatedPlace(analysis.fingerings[index])),
    data,
  };
}

function whatSounds(prediction: FingeringPrediction, cents: number): string {
  const wrong =
    Math.abs(cents) > ANOTHER_NOTE && prediction.nearest !== undefined
      ? `, nearer to ${prediction.nearest.note.name}`
      : "";
  return `${nameOfFingering(prediction)} sounds ${deviationInWords(cents)}${wrong}.`;
}

function placeToChange({ instrument }: Analysis, hole: number | undefined, fingering: number): Finding["path"] {
  const { pipes, vessel, column } = instrument;
  const path = hole === undefined ? undefined : instrument.holes[hole]?.path;
  if (path !== undefined) return [...path, vessel === undefined ? "at" : "diameter"];
  if (pipes !== undefined) return [...(pipes[fingering]?.path ?? ["pipes"]), "length"];
  if (vessel !== undefined) return vessel.size.path;
  return ["bore", (column?.bore.length ?? 1) - 1, "at"];
}

function holeRemedy(analysis: Analysis, governed: Governed): string {
  const { hole, fingerings } = governed;
  const worst = fingerings[0];
  if (hole === undefined || worst === undefined) return "";
  const changes = holeChanges(analysis, hole, worst);
  if (changes.length === 0 && analysis.instrument.vessel !== undefined)
    return `No size of ${holeName(analysis, hole)} alone puts it right: look at the other open holes, and at the mouth.`;
  if (changes.length === 0)
    return `No place or size of ${holeName(analysis, hole)} alone puts it right: look at the holes beside it.`;
  const [first = "", ...rest] = changes.map((change) => remedyInWords(analysis, change));
  return `${first.charAt(0).toUpperCase()}${first.slice(1)}${rest.map((text) => `, or ${text}`).join("")}.`;
}

function wholeRemedy(analysis: Analysis, fingering: number): string {
  const { pipes, vessel } = analysis.instrument;
  if (pipes === undefined && vessel === undefined) return boreRemedy(analysis, fingering);
  const change = pipes === undefined ? vesselChange(analysis, fingering) : pipeChange(analysis, fingering);
  if (change === undefined) return "";
  const remedy = wholeRemedyInWords(analysis, change);
  return `${remedy.charAt(0).toUpperCase()}${remedy.slice(1)}.`;
}

function boreRemedy(analysis: Analysis, fingering: number): string {
  const place = footPlace(analysis, fingering);
  const foot = analysis.instrument.column?.bore.at(-1)?.x;
  if (place === undefined || foot === undefined) return "";
  const way = place < foot ? "shorter" : "longer";
  return `A bore ${drawnLength(Math.abs(place - foot), analysis.instrument)} ${way} puts it right.`;
}

/** Said where the notes of one hole pull in opposite directions. */
function conflict(analysis: Analysis, governed: Governed): string {
  const [worst, ...others] = governed.fingerings.map((index) => analysis.fingerings[index]);
  const against = others.find(
    (other) =>
      Math.abs(other?.cents ?? 0) > analysis.tolerance && Math.sign(other?.cents ?? 0) !== Math.sign(worst?.cents ?? 0),
  );
  if (against?.cents === undefined) return "";
  const whole = analysis.instrument.vessel === undefined ? "the bore's length" : "the size of the vessel";
  const what = governed.hole === undefined ? whole : "this hole";
  return `But ${nameOfFingering(against)} is ${deviationInWords(against.cents)}: ${what} alone cannot put both right.`;
}

function relatedPlace(prediction: FingeringPrediction | undefined): RelatedPlace[] {
  if (prediction?.cents === undefined) return [];
  const { fingering, predictedHz = 0, targetHz = 0, cents } = prediction;
  const target = `${nameOfFingering(prediction)} should be ${targetHz.toFixed(1)} Hz, sounds ${predictedHz.toFixed(1)} Hz`;
  return [
    { path: fingering.path, message: `${target}: ${centsInWords(Math.abs(cents))} ${cents < 0 ? "flat" : "sharp"}` },
  ];
}
