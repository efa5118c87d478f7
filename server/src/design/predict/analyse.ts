import { airState } from "../../acoustics/air.js";
import type { Sounding } from "../../acoustics/resonance.js";
import { drained, type Steps } from "../../acoustics/steps.js";
import { containedSteps } from "../../instrument/contained.js";
import type { Instrument } from "../../instrument/model.js";
import { centsAbove } from "../../music/cents.js";
import { frequencyOf, nearestNote } from "../../music/tuning.js";
import { type AnalysisSettings, DEFAULT_SETTINGS } from "../settings.js";
import type { Analysis, AnalysisSummary, FingeringPrediction } from "./analysis.js";
import { bodySteps } from "./body.js";
import type { KnownSoundings } from "./knownSoundings.js";

export interface AnalyseOptions {
  /** Asked often while computing; true makes `analyse` throw `Cancelled`. */
  readonly shouldStop?: () => boolean;
  /** Soundings of earlier analyses, taken where they apply and kept for the next. */
  readonly known?: KnownSoundings;
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
  const { soundings, refusal } = yield* containedSteps(
    "The prediction",
    () => predict(instrument, air, options),
    FAILED,
  );
  const fingerings = instrument.fingerings.map((fingering, i): FingeringPrediction => {
    const resonance = soundings[i];
    const predictedHz = resonance?.frequency;
    const targetHz = fingering.target && frequencyOf(fingering.target, instrument.tuning);
    return {
      fingering,
      targetHz,
      predictedHz,
      resonance,
      cents: targetHz !== undefined && predictedHz !== undefined ? centsAbove(predictedHz, targetHz) : undefined,
      nearest: predictedHz === undefined ? undefined : nearestNote(predictedHz, instrument.tuning),
    };
  });
  return { instrument, temperature, tolerance, air, fingerings, summary: summarise(fingerings, tolerance), refusal };
}

interface Predicted {
  readonly soundings: readonly (Sounding | undefined)[];
  readonly refusal: string | undefined;
}

const FAILED: Predicted = { soundings: [], refusal: "a fault of this program stands in the way" };

/** What each fingering sounds, undefined where there is none; and why nothing does, where the physics refuses the numbers. */
function* predict(instrument: Instrument, air: Analysis["air"], options: AnalyseOptions): Steps<Predicted> {
  const queries = instrument.fingerings.flatMap(({ covers, register }, index) =>
    covers === undefined ? [] : [{ index, covers, register }],
  );
  const found: (Sounding | undefined)[] = new Array(instrument.fingerings.length).fill(undefined);
  try {
    const soundings = yield* options.known?.steps(instrument, air, queries, options) ??
      bodySteps(instrument, air, queries, options);
    queries.forEach(({ index }, i) => {
      found[index] = soundings[i];
    });
    return { soundings: found, refusal: undefined };
  } catch (error) {
    if (!(error instanceof RangeError)) throw error;
    return { soundings: found, refusal: error.message };
  }
}

function summarise(fingerings: readonly FingeringPrediction[], tolerance: number): AnalysisSummary | undefined {
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
