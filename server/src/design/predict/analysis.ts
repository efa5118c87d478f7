/** What an instrument plays, fingering by fingering. */

import type { AirState } from "../../acoustics/airState.js";
import type { Grid } from "../../acoustics/grid.js";
import type { Sounding } from "../../acoustics/resonance.js";
import type { Fingering, Instrument } from "../../instrument/model.js";
import type { NearestNote } from "../../music/tuning.js";

export interface FingeringPrediction {
  readonly fingering: Fingering;
  /** Hz; undefined where the fingering has no readable target. */
  readonly targetHz: number | undefined;
  /** Hz; undefined where the column is not fully described, has no such resonance, or too much else came before. */
  readonly predictedHz: number | undefined;
  /** Whether it was left out because it, with what comes before it, takes too much work. */
  readonly isBeyondBudget: boolean;
  /** How firm and strong the predicted resonance is; undefined with `predictedHz`. */
  readonly resonance: Sounding | undefined;
  /** How far the prediction lies above the target, cents; negative is flat. */
  readonly cents: number | undefined;
  /** The note of the temperament nearest to what is heard: the prediction with breath and bench added, as in the target. */
  readonly nearest: NearestNote | undefined;
}

export interface Analysis {
  readonly instrument: Instrument;
  /** °C, from the design or the settings. */
  readonly temperature: number;
  /** Cents, from the design or the settings. */
  readonly tolerance: number;
  readonly air: AirState;
  /** One for each fingering of the design, in its order. */
  readonly fingerings: readonly FingeringPrediction[];
  /** Over the fingerings that have both target and prediction; undefined when there are none. */
  readonly summary: AnalysisSummary | undefined;
  /** Why there is no prediction at all, where the physics refuses the numbers of a described instrument. */
  readonly refusal?: string | undefined;
  /** What the search for remedies may take, microseconds (`acoustics/work.ts`); undefined: what it needs. */
  readonly remedyWork?: number | undefined;
  /** What the scan's frequencies make of the column, where it is kept: scans of columns that differ in little start from it. */
  readonly grid?: Grid | undefined;
}

export interface AnalysisSummary {
  readonly count: number;
  /** The deviation farthest from zero, with its sign, cents. */
  readonly worstCents: number;
  readonly rmsCents: number;
  readonly meanCents: number;
  readonly outOfTune: number;
}
