import { t } from "../words/translation.js";
import type { TextProblem } from "./parsed.js";
import type { MapEntry } from "./tree.js";

/** A key written more than once in one map. */
export function duplicateKeys(entries: readonly MapEntry[]): readonly TextProblem[] {
  const seen = new Set<string>();
  return entries.flatMap(({ key, keySpan, merged }): readonly TextProblem[] => {
    if (merged) return [];
    if (!seen.has(key)) {
      seen.add(key);
      return [];
    }
    const message = t`\`${key}\` is written twice here, and the first one counts. Remove one.`;
    return [{ code: "file/duplicate-key", severity: "error", message, span: keySpan }];
  });
}
