/** A hole: the notes it governs and how far each is out. */

import { escapeMarkdown } from "../../escape/markdown.js";
import { t } from "../../words/translation.js";
import { bodyWords } from "../bodyWords.js";
import { governedBy } from "../governing.js";
import { centsInWords, fingeringName, hertz } from "../words.js";
import { table } from "./markdown.js";
import type { HoverTopic } from "./place.js";

/** More rows than this are not read at a glance. */
const MOST_ROWS = 8;

export const hole: HoverTopic = ({ analysis, path }) => {
  const index = Number(path[1]);
  const named = analysis.instrument.holes[index];
  if (named === undefined) return [];
  const governed = governedBy(analysis, index);
  const heading = `**${escapeMarkdown(named.name)}**`;
  const words = bodyWords(analysis.instrument.body);
  if (governed.length === 0) return [words.decidesNothing(heading)];
  const rows = governed
    .slice(0, MOST_ROWS)
    .map(({ fingering, index: i, targetHz, predictedHz, cents }) => [
      fingeringName(fingering, i),
      targetHz === undefined ? "" : hertz(targetHz),
      predictedHz === undefined ? t("not predicted") : hertz(predictedHz),
      cents === undefined ? "" : centsInWords(cents),
    ]);
  const more = governed.length > MOST_ROWS ? [t`and ${governed.length - MOST_ROWS} more`] : [];
  return [words.decides(heading), ...table([t("note"), t("target"), t("predicted"), t("deviation")], rows), ...more];
};
