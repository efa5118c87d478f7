/**
 * pitch/out-of-tune: a fingering farther from its note than the tolerance. Said where the change belongs: on the hole that
 * decides the pitch, or on the bore's length for notes with every hole closed; on the pipe's length in a pan pipe.
 */

import type { Steps } from "../../acoustics/steps.js";
import { Budget, within } from "../../acoustics/work.js";
import { containedSteps } from "../../instrument/contained.js";
import type { Finding, Path, RelatedPlace, RuleCode } from "../../instrument/finding.js";
import { ANOTHER_NOTE } from "../../music/cents.js";
import { decimal } from "../../words/decimal.js";
import { t } from "../../words/translation.js";
import type { Constraints } from "../constraints/constraints.js";
import { allowedHoleSteps } from "../fix/allowedChange.js";
import { holeName, remedyInWords } from "../fix/remedy.js";
import type { Analysis, FingeringPrediction } from "../predict/analysis.js";
import { type Governed, governedFingerings, nameOfFingering } from "../predict/governing.js";
import { besideShift, type CommonShift, commonShift, scatterBeyond } from "../rekey/commonShift.js";
import { centsInWords, deviationInWords } from "../wording.js";
import { type OffTogetherData, offTogether } from "./offTogether.js";
import { notAllowed, outOfTuneIn, sentence } from "./outOfTuneByBody.js";
import type { Rule } from "./rule.js";

export const OUT_OF_TUNE: RuleCode = "pitch/out-of-tune";

/** What a fix needs to know; travels with the diagnostic. */
export interface OutOfTuneData {
  /** Of the finding for notes that are off together. */
  readonly together?: OffTogetherData;
  /** Cents by which the other notes are off together: this finding is relative to them. */
  readonly beside?: number;
  /** Index of the hole; absent where the length of bore or pipe decides, or the size of a vessel. */
  readonly hole?: number;
  /** Indices of the fingerings it decides, worst first. */
  readonly fingerings: readonly number[];
}

export const outOfTune: Rule = {
  code: OUT_OF_TUNE,
  *check(analysis, constraints, resolution) {
    const shift = commonShift(analysis);
    const budget = new Budget(analysis.remedyWork ?? Number.POSITIVE_INFINITY);
    // One number in tune with itself has nothing to be told apart from.
    if (shift === undefined || governedFingerings(analysis).length < 2)
      return yield* singly(analysis, constraints, budget);
    const { together, ...said } = yield* offTogether(resolution, analysis, shift, budget);
    const data: OutOfTuneData = { together, fingerings: shift.fingerings };
    const related = extremes(analysis, shift.fingerings).flatMap(relatedPlace);
    const whole: Finding = { code: OUT_OF_TUNE, severity: "error", ...said, related, data };
    const beside = { analysis, cents: shift.cents };
    const single = yield* singly(besideShift(analysis, shift.cents), constraints, budget, beside);
    return [whole, ...apartFrom(analysis, shift, single)];
  },
};

/** Findings besides the one for notes that are off together: where several of these scatter widely, that finding has said so and how to mend it. */
function apartFrom(analysis: Analysis, shift: CommonShift, single: readonly Finding[]): readonly Finding[] {
  if (scatterBeyond(analysis, shift) === undefined) return single;
  const sharing = new Set(shift.fingerings);
  const isOther = ({ data }: Finding) => (data as OutOfTuneData).fingerings.some((index) => !sharing.has(index));
  const others = single.filter(isOther);
  return single.length - others.length > 1 ? others : single;
}

/** The flattest and the sharpest of some notes: all of them would bury the message. */
function extremes({ fingerings }: Analysis, indices: readonly number[]) {
  const sorted = indices.flatMap((index) => fingerings[index] ?? []).sort((a, b) => (a.cents ?? 0) - (b.cents ?? 0));
  return [sorted[0], sorted.at(-1)];
}

/** Where the targets are moved: the analysis as it is, and by how many cents. */
interface Beside {
  readonly analysis: Analysis;
  readonly cents: number;
}

function* singly(
  analysis: Analysis,
  constraints: Constraints,
  budget: Budget,
  beside?: Beside,
): Steps<readonly Finding[]> {
  const findings: Finding[] = [];
  for (const governed of governedFingerings(analysis)) {
    const finding = yield* findingFor(analysis, constraints, governed, beside, budget);
    if (finding !== undefined) findings.push(finding);
  }
  return findings;
}

function* findingFor(
  analysis: Analysis,
  constraints: Constraints,
  governed: Governed,
  beside: Beside | undefined,
  budget: Budget,
): Steps<Finding | undefined> {
  const isOut = (index: number) => Math.abs(analysis.fingerings[index]?.cents ?? 0) > analysis.tolerance;
  const worstIndex = governed.fingerings[0];
  const worst = worstIndex === undefined ? undefined : analysis.fingerings[worstIndex];
  if (worstIndex === undefined || worst?.cents === undefined || !isOut(worstIndex)) return undefined;
  const data: OutOfTuneData = {
    ...(governed.hole === undefined ? {} : { hole: governed.hole }),
    ...(beside === undefined ? {} : { beside: beside.cents }),
    fingerings: governed.fingerings,
  };
  const actual = (beside?.analysis ?? analysis).fingerings;
  // Without a remedy it is still out of tune.
  const remedy = yield* containedSteps(
    "A remedy",
    () =>
      within(
        budget,
        governed.hole === undefined
          ? outOfTuneIn(analysis.instrument.body).wholeRemedy(analysis, constraints, worstIndex)
          : holeRemedy(analysis, constraints, governed),
      ),
    "",
  );
  return {
    code: OUT_OF_TUNE,
    severity: Math.abs(worst.cents) > ANOTHER_NOTE ? "error" : "warning",
    message: [whatSounds(worst, worst.cents, beside), remedy, conflict(analysis, governed, beside)]
      .filter(Boolean)
      .join(" "),
    path: placeToChange(analysis, governed.hole, worstIndex),
    related: governed.fingerings.filter(isOut).flatMap((index) => relatedPlace(actual[index])),
    data,
  };
}

/** `23 cents flat`, or `23 cents flatter than the other notes`. */
function howFar(cents: number, beside: Beside | undefined): string {
  if (beside === undefined) return deviationInWords(cents);
  return t`${centsInWords(Math.abs(cents))} ${cents < 0 ? t("flatter") : t("sharper")} than the other notes`;
}

function whatSounds(prediction: FingeringPrediction, cents: number, beside: Beside | undefined): string {
  const wrong =
    beside === undefined && Math.abs(cents) > ANOTHER_NOTE && prediction.nearest !== undefined
      ? t`, closer to ${prediction.nearest.note.name}`
      : "";
  return t`${nameOfFingering(prediction)} sounds ${howFar(cents, beside)}${wrong}.`;
}

function placeToChange({ instrument: { body, holes } }: Analysis, hole: number | undefined, fingering: number): Path {
  const own = outOfTuneIn(body);
  const path = hole === undefined ? undefined : holes[hole]?.path;
  return path === undefined ? own.whole(body, fingering) : [...path, own.holeProperty];
}

function* holeRemedy(analysis: Analysis, constraints: Constraints, governed: Governed): Steps<string> {
  const { hole, fingerings } = governed;
  const worst = fingerings[0];
  if (hole === undefined || worst === undefined) return "";
  const { changes, inTheWay } = yield* allowedHoleSteps(analysis, constraints, hole, worst);
  if (changes.length === 0 && inTheWay.length > 0) return notAllowed(inTheWay);
  if (changes.length === 0) return outOfTuneIn(analysis.instrument.body).noHoleHelps(holeName(analysis, hole));
  const [first = "", ...rest] = changes.map((change) => remedyInWords(analysis, change));
  return sentence(`${first}${rest.map((text) => t`, or ${text}`).join("")}`);
}

/** Said where the notes of one hole pull in opposite directions. */
function conflict(analysis: Analysis, governed: Governed, beside: Beside | undefined): string {
  const [worst, ...others] = governed.fingerings.map((index) => analysis.fingerings[index]);
  const against = others.find(
    (other) =>
      Math.abs(other?.cents ?? 0) > analysis.tolerance && Math.sign(other?.cents ?? 0) !== Math.sign(worst?.cents ?? 0),
  );
  if (against?.cents === undefined) return beside === undefined ? cost(analysis, governed) : "";
  const what = governed.hole === undefined ? outOfTuneIn(analysis.instrument.body).wholeInWords() : t("this hole");
  return t`But ${nameOfFingering(against)} is ${howFar(against.cents, beside)}: ${what} alone cannot put both right.`;
}

/**
 * Said where putting one note right puts another out of tune that the same change moves: both move alike, or nearly so. Else the fix
 * of the one would undo that of the other.
 */
function cost({ fingerings, tolerance }: Analysis, governed: Governed): string {
  const [worst, ...others] = governed.fingerings.flatMap((index) => fingerings[index] ?? []);
  const by = worst?.cents;
  if (by === undefined) return "";
  const moved = others.flatMap((note) => (note.cents === undefined ? [] : [{ note, cents: note.cents - by }]));
  const [spoilt] = moved.sort((a, b) => Math.abs(b.cents) - Math.abs(a.cents));
  if (spoilt === undefined || Math.abs(spoilt.cents) <= tolerance) return "";
  const midway = centsInWords(Math.abs(spoilt.cents) / 2);
  return t`That leaves ${nameOfFingering(spoilt.note)} about ${deviationInWords(spoilt.cents)}; midway both are about ${midway} off.`;
}

function relatedPlace(prediction: FingeringPrediction | undefined): RelatedPlace[] {
  if (prediction?.cents === undefined) return [];
  const { fingering, predictedHz = 0, targetHz = 0, cents } = prediction;
  const target = t`${nameOfFingering(prediction)} should be ${decimal(targetHz.toFixed(1))} Hz, sounds ${decimal(predictedHz.toFixed(1))} Hz`;
  return [
    {
      path: fingering.path,
      message: `${target}: ${centsInWords(Math.abs(cents))} ${cents < 0 ? t("flat") : t("sharp")}`,
    },
  ];
}
