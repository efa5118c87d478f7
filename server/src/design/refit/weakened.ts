/** Notes that a refit leaves weak, or unsteady in pitch, and that were not so before: said before it is applied. */
import { drained } from "../../acoustics/steps.js";
import { pathKey } from "../../instrument/path.js";
import { t } from "../../words/translation.js";
import type { Analysis } from "../predict/analysis.js";
import { weakNoteSteps } from "../rules/weakNote.js";

/** Up to this many are named one by one. */
const MOST_TOLD = 3;

export function weakened(before: Analysis, after: Analysis): readonly string[] {
  const weak = drained(weakNoteSteps(after));
  if (weak.length === 0) return [];
  const was = new Set(drained(weakNoteSteps(before)).map(({ path }) => pathKey(path)));
  const now = weak.filter(({ path }) => !was.has(pathKey(path)));
  const more = now.length - MOST_TOLD;
  return [
    ...now.slice(0, MOST_TOLD).map(({ message }) => t`After this refit ${message}`),
    ...(more > 0
      ? [
          more === 1
            ? t("1 more note will be weak: `check` names it.")
            : t`${more} more notes will be weak: \`check\` names them.`,
        ]
      : []),
  ];
}
