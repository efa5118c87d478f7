/** A number: its value where it is an expression or a parameter, and where a parameter is used. */

import { numberAt } from "../../document/designNumbers.js";
import { dataOf } from "../../document/treeData.js";
import { escapeMarkdown, markdownCode } from "../../escape/markdown.js";
import type { ResolvedNumber } from "../../instrument/formula/resolvedNumber.js";
import { placeInWords } from "../../instrument/placeInWords.js";
import { t } from "../../words/translation.js";
import { schemaAt, unitOf } from "../schema.js";
import { plain } from "../words.js";
import type { HoverTopic } from "./place.js";

/** Enough digits to copy from; a micrometre of a millimetre is beyond any tool. */
const DIGITS = 4;
const MOST_USES = 6;

export const number: HoverTopic = ({ document, path }) => {
  const { numbers } = document.resolution;
  const own = numberAt(document, path);
  if (own === undefined) return [];
  const unit = unitOf(schemaAt(path), document);
  const name = path[0] === "parameters" ? String(path[1]) : undefined;
  const value = `**${plain(own.value, DIGITS)}**${unit === undefined ? "" : ` ${unit}`}`;
  const text = own.expression === undefined ? [] : [`${value} = ${escapeMarkdown(own.expression)}`];
  if (name === undefined) return text;
  return [
    ...(text.length === 0 ? [`${escapeMarkdown(name)} = ${value}`] : text),
    usesOf(name, numbers, dataOf(document.root)),
  ];
};

function usesOf(name: string, numbers: readonly ResolvedNumber[], data: unknown): string {
  const word = new RegExp(`(?<![\\w.])${name.replace(/[^\w]/g, "\\$&")}(?![\\w.])`);
  const uses = numbers.filter(({ expression }) => expression !== undefined && word.test(expression));
  if (uses.length === 0) return t("Not used in any expression.");
  const named = uses
    .slice(0, MOST_USES)
    .map(({ path }) => placeInWords(path, data, { name: escapeMarkdown, code: markdownCode }));
  const more = uses.length > MOST_USES ? t` and ${uses.length - MOST_USES} more` : "";
  return t`Used in ${named.join(", ")}${more}.`;
}
