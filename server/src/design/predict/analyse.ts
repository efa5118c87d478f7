import { airState } from "../../acoustics/air.js";
import { type AnswerOrNot, BEYOND_BUDGET } from "../../acoustics/answer.js";
import { drained, type Steps } from "../../acoustics/steps.js";
import { Budget } from "../../acoustics/work.js";
import { containedSteps } from "../../instrument/contained.js";
import type { Instrument } from "../../instrument/model.js";
import { centsAbove } from "../../music/cents.js";
import { told } from "../../words/translation.js";
import { type AnalysisSettings, DEFAULT_SETTINGS } from "../settings.js";
import type { Allowance } from "./allowance.js";
import type { Analysis, AnalysisSummary, FingeringPrediction } from "./analysis.js";
import { bodySteps } from "./body.js";
import type { KnownSoundings } from "./knownSoundings.js";
import { nearestHeard, targetHzOf } from "./target.js";

export interface AnalyseOptions {
  /** Asked often while computing; true makes `analyse` throw `Cancelled`. */
  readonly shouldStop?: () => boolean;
  /** Soundings of earlier analyses, taken where they apply and kept for the next. */
  readonly known?: KnownSoundings;
  /** How much may be done; as much as is needed where left out. */
  readonly allowance?: Allowance;
}

/**
 * Predicts every fingering of an instrument. Never throws for an incomplete instrument: what cannot be predicted is
 * undefined in the result.
 * @throws Cancelled when `shouldStop` says so
 */
export function analyse(
  instrument: Instrument,
  settings: AnalysisSettings = DEFAULT_SETTINGS,
  options: AnalyseOptions = {},
): Analysis {
  return drained(analysisSteps(instrument, settings, options));
}

/** As `analyse`, step by step. */
export function* analysisSteps(
  instrument: Instrument,
  settings: AnalysisSettings = DEFAULT_SETTINGS,
  options: AnalyseOptions = {},
): Steps<Analysis> {
  const temperature = instrument.air.temperature ?? settings.temperature;
  const tolerance = instrument.tolerance ?? settings.tolerance;
  const air = airState({ ...instrument.air, temperature });
  const { answers, refusal } = yield* containedSteps("The prediction", () => predict(instrument, air, options), FAILED);
  const fingerings = instrument.fingerings.map((fingering, i): FingeringPrediction => {
    const answer = answers[i];
    const isBeyondBudget = answer === BEYOND_BUDGET;
    const resonance = isBeyondBudget ? undefined : answer?.sounding;
    const predictedHz = resonance?.frequency;
    const targetHz = targetHzOf(fingering, instrument);
    return {
      fingering,
      targetHz,
      predictedHz,
      isBeyondBudget,
      resonance,
      cents: targetHz !== undefined && predictedHz !== undefined ? centsAbove(predictedHz, targetHz) : undefined,
      nearest: predictedHz === undefined ? undefined : nearestHeard(predictedHz, fingering, instrument),
    };
  });
  const summary = summarise(fingerings, tolerance);
  const remedyWork = options.allowance?.remedies;
  return {
    instrument,
    temperature,
    tolerance,
    air,
    fingerings,
    summary,
    refusal,
    remedyWork,
    grid: options.known?.grid,
  };
}

interface Predicted {
  /** One for each fingering; undefined where it cannot be asked for. */
  readonly answers: readonly (AnswerOrNot | undefined)[];
  readonly refusal: string | undefined;
}

const FAILED: Predicted = { answers: [], refusal: told("a fault in this program prevents it") };

/** What each fingering sounds; and why nothing does, where the physics refuses the numbers. */
function* predict(instrument: Instrument, air: Analysis["air"], options: AnalyseOptions): Steps<Predicted> {
  const queries = instrument.fingerings.flatMap(({ covers, register }, index) =>
    covers === undefined ? [] : [{ index, covers, register }],
  );
  const found: (AnswerOrNot | undefined)[] = [];
  const { allowance, known, shouldStop } = options;
  const asked = {
    ...(shouldStop === undefined ? {} : { shouldStop }),
    ...(allowance === undefined ? {} : { budget: new Budget(allowance.prediction) }),
  };
  try {
    const answers = yield* known?.steps(instrument.body, air, queries, asked) ??
      bodySteps(instrument.body, air, queries, asked);
    queries.forEach(({ index }, i) => {
      found[index] = answers[i];
    });
    return { answers: found, refusal: undefined };
  } catch (error) {
    if (!(error instanceof RangeError)) throw error;
    return { answers: found, refusal: error.message };
  }
}

/** Undefined where no fingering has both target and prediction. */
export function summarise(fingerings: readonly FingeringPrediction[], tolerance: number): AnalysisSummary | undefined {
  const cents = fingerings.flatMap((fingering) => fingering.cents ?? []);
  if (cents.length === 0) return undefined;
  const mean = cents.reduce((sum, value) => sum + value, 0) / cents.length;
  const square = cents.reduce((sum, value) => sum + value * value, 0) / cents.length;
  return {
    count: cents.length,
    worstCents: cents.reduce((worst, value) => (Math.abs(value) > Math.abs(worst) ? value : worst), 0),
    rmsCents: Math.sqrt(square),
    meanCents: mean,
    outOfTune: cents.filter((value) => Math.abs(value) > tolerance).length,
  };
}
