/** The name of a finding under `rules` leads to the page that explains it. */

import type { DocumentLink } from "vscode-languageserver";
import { nodeAt } from "../document/tree.js";
import { SWITCHABLE_RULES } from "../instrument/ruleLevels.js";
import { t } from "../words/translation.js";
import { type DesignContext, rangeOf } from "./designContext.js";
import { rulePage } from "./diagnostics.js";

export function documentLinks(context: DesignContext): DocumentLink[] {
  const { rulePages } = context.client;
  if (rulePages === undefined) return [];
  return context.file.documents.flatMap(({ root }) => {
    const rules = nodeAt(root, ["rules"]);
    if (rules?.kind !== "map" || rules.source !== undefined) return [];
    return rules.entries
      .filter(({ key, merged }) => !merged && (SWITCHABLE_RULES as readonly string[]).includes(key))
      .map(({ key, keySpan }) => ({
        range: rangeOf(context, keySpan),
        target: rulePage(rulePages, key) as string,
        tooltip: t("What this finding means"),
      }));
  });
}
