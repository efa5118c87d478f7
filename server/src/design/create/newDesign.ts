/** A new instrument from nothing: proportions of its kind, then brought into tune. */
import { readDesign } from "../../document/read.js";
import type { RuleCode } from "../../instrument/finding.js";
import type { Note } from "../../music/note.js";
import { t } from "../../words/translation.js";
import { preflight } from "../making/preflight.js";
import { type AnalyseOptions, analyse } from "../predict/analyse.js";
import type { Analysis } from "../predict/analysis.js";
import { retune } from "../refit/rekeyByRefit.js";
import { CannotRekey } from "../rekey/rekeyResult.js";
import { type AnalysisSettings, DEFAULT_SETTINGS } from "../settings.js";
import { firstSentence } from "../wording.js";
import { firstText, type Wanted } from "./firstText.js";
import { RECIPES, type RecipeId } from "./recipes.js";

export interface NewDesign {
  readonly text: string;
  readonly analysis: Analysis;
  /** What was not possible, in the maker's words. */
  readonly remarks: readonly string[];
}

/** Of an instrument that nobody has named: `D5 side blown`. */
export function usualName(recipe: RecipeId, key: Note): string {
  return `${key.name} ${recipe.replaceAll("-", " ")}`;
}

/** @throws Cancelled */
export function newDesign(
  recipe: RecipeId,
  wanted: Wanted,
  settings: AnalysisSettings = DEFAULT_SETTINGS,
  options: AnalyseOptions = {},
): NewDesign {
  const first = firstText(RECIPES[recipe], wanted);
  const file = readDesign(first, "yaml");
  try {
    const { text, after, obstacles } = retune(file, 0, "all", settings, options);
    const held = after.summary?.outOfTune === 0 ? [] : obstacles.map(({ message, advice }) => `${message}: ${advice}`);
    return { text, analysis: after, remarks: [...held, ...noWindway(text)] };
  } catch (error) {
    if (!(error instanceof CannotRekey)) throw error;
    const instrument = file.documents[0]?.resolution.instrument;
    if (instrument === undefined) throw error;
    return { text: first, analysis: analyse(instrument, settings, options), remarks: [error.message] };
  }
}

const NO_ROOM: RuleCode = "solid/no-room";

/** Where a tube at hand is too thin for a windway in its wall, as a printed head would have it. */
function noWindway(text: string): readonly string[] {
  const [document] = readDesign(text, "yaml").documents;
  const found =
    document && preflight(document.resolution).refused.find(({ code, path }) => code === NO_ROOM && path[0] === "wall");
  return found === undefined
    ? []
    : [
        t`${firstSentence(found.message).replace(/\.$/, "")}. Cut the windway into the block, or print a head with a thicker wall.`,
      ];
}
