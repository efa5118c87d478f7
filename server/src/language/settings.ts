/** What a user sets outside the design, read from the section `borewright` of the client's settings. */
import { type AnalysisSettings, DEFAULT_SETTINGS } from "../design/settings.js";
import { isRuleLevel, RULE_LEVELS, type RuleLevels, SWITCHABLE_RULES, whyNot } from "../instrument/ruleLevels.js";
import { t } from "../words/translation.js";

export interface Settings {
  readonly analysis: AnalysisSettings;
  /** How severe findings are, by rule code; the design's own `rules` win. */
  readonly rules: RuleLevels;
  readonly inlayHints: { readonly fingerings: boolean; readonly holes: boolean };
  readonly codeLens: { readonly enabled: boolean };
}

export const SETTINGS_SECTION = "borewright";

export const INITIAL_SETTINGS: Settings = {
  analysis: DEFAULT_SETTINGS,
  rules: {},
  inlayHints: { fingerings: true, holes: true },
  codeLens: { enabled: true },
};

/** Cents. A tolerance of zero would mark every note, more than a semitone none. */
const TOLERANCE_RANGE = [0.1, 100] as const;
/** °C. Nobody plays outside this range; Cramer (1993) states the speed of sound for 0 to 30. */
const TEMPERATURE_RANGE = [-10, 45] as const;

export interface ReadSettings {
  readonly settings: Settings;
  /** One line for each value that could not be used, for the log. */
  readonly complaints: readonly string[];
}

/** Reads the section as the client sends it; whatever is missing or wrong falls back to its default. Never throws. */
export function readSettings(section: unknown): ReadSettings {
  const complaints: string[] = [];
  const value = (path: string): unknown => path.split(".").reduce<unknown>(property, section);
  const number = (path: string, [low, high]: readonly [number, number], fallback: number): number => {
    const given = value(path);
    if (given === undefined || given === null) return fallback;
    if (typeof given === "number" && given >= low && given <= high) return given;
    complaints.push(complaint(path, given, t`a number from ${low} to ${high}`, fallback));
    return fallback;
  };
  const flag = (path: string, fallback: boolean): boolean => {
    const given = value(path);
    if (given === undefined || given === null) return fallback;
    if (typeof given === "boolean") return given;
    complaints.push(complaint(path, given, t("true or false"), fallback));
    return fallback;
  };
  const settings: Settings = {
    analysis: {
      tolerance: number("tolerance", TOLERANCE_RANGE, INITIAL_SETTINGS.analysis.tolerance),
      temperature: number("airTemperature", TEMPERATURE_RANGE, INITIAL_SETTINGS.analysis.temperature),
    },
    rules: readRules(value("rules"), complaints),
    inlayHints: {
      fingerings: flag("inlayHints.fingerings", INITIAL_SETTINGS.inlayHints.fingerings),
      holes: flag("inlayHints.holes", INITIAL_SETTINGS.inlayHints.holes),
    },
    codeLens: { enabled: flag("codeLens.enabled", INITIAL_SETTINGS.codeLens.enabled) },
  };
  return { settings, complaints };
}

/** Entries that name a rule and how severe it is; a complaint for each other. */
function readRules(given: unknown, complaints: string[]): RuleLevels {
  if (given === undefined || given === null) return {};
  if (typeof given !== "object" || Array.isArray(given)) {
    complaints.push(complaint("rules", given, t("rule codes, each with how severe it is"), t("each finding's own")));
    return {};
  }
  const usable = Object.entries(given).filter(([code, level]) => {
    if (!SWITCHABLE_RULES.includes(code)) complaints.push(t`The setting ${SETTINGS_SECTION}.rules: ${whyNot(code)}`);
    else if (!isRuleLevel(level))
      complaints.push(complaint(`rules["${code}"]`, level, RULE_LEVELS.join(", "), t("the finding's own")));
    else return true;
    return false;
  });
  return Object.fromEntries(usable);
}

function property(object: unknown, name: string): unknown {
  return typeof object === "object" && object !== null ? (object as Record<string, unknown>)[name] : undefined;
}

function complaint(path: string, given: unknown, wanted: string, fallback: unknown): string {
  const name = `${SETTINGS_SECTION}.${path}`;
  return t`The setting ${name} is ${JSON.stringify(given)}; it should be ${wanted}. Using ${String(fallback)}.`;
}
