import type { RuleLevels } from "../instrument/ruleLevels.js";

/** What a user may set outside the design; the design's own words always win. */
export interface AnalysisSettings {
  /** Cents beyond which a fingering is out of tune, where the design does not say. */
  readonly tolerance: number;
  /** Air temperature in °C, where the design does not say. */
  readonly temperature: number;
}

/** What else findings depend on. */
export interface CheckSettings extends AnalysisSettings {
  /** How severe findings are, by rule code; the design's own `rules` win. */
  readonly rules?: RuleLevels;
}

/**
 * 10 cents: what melodic listeners notice (Hill & Summers 2007, as cited in shared reference works, from memory) and the
 * upper end of what fine instruments hold (common practice, no source). 22 °C: a warm room; common practice, no source.
 */
export const DEFAULT_SETTINGS: AnalysisSettings = { tolerance: 10, temperature: 22 };
