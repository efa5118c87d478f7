/** A station of the bore: its place in the whole, and the taper beside it. */

import type { Column } from "../../acoustics/column.js";
import { lengthInWords } from "../../design/wording.js";
import { sharedColumn } from "../../instrument/body.js";
import { t } from "../../words/translation.js";
import { plain } from "../words.js";
import type { HoverTopic } from "./place.js";

export const station: HoverTopic = ({ analysis, path }) => {
  const { body, printedUnit } = analysis.instrument;
  const column = sharedColumn(body);
  const index = Number(path[1]);
  const own = column?.bore[index];
  if (column === undefined || own === undefined || !(printedUnit > 0)) return [];
  const inWords = (metres: number) => lengthInWords(metres, analysis.instrument);
  const printed = t`printed: ${inWords(own.x)} from the mouth, bore ${inWords(2 * own.radius)}`;
  const sections = [beside(column, index - 1, t("toward the mouth")), beside(column, index, t("toward the foot"))];
  const foot = index === column.bore.length - 1 ? [t("the foot: its place sets the lowest note")] : [];
  return [t`**Station ${index + 1} of ${column.bore.length}**, ${[printed, ...sections.flat(), ...foot].join("; ")}.`];
};

/** The piece of bore from station `from` to the next. */
function beside({ bore }: Column, from: number, where: string): string[] {
  const [a, b] = [bore[from], bore[from + 1]];
  if (a === undefined || b === undefined) return [];
  if (a.x === b.x) return [t`a step ${where}`];
  if (a.radius === b.radius) return [t`a cylinder ${where}`];
  const slope = (2 * Math.abs(b.radius - a.radius)) / (b.x - a.x);
  const ratio = plain(1 / slope, 0);
  return [
    b.radius > a.radius
      ? t`a cone ${where}, widening 1 in ${ratio} to the foot`
      : t`a cone ${where}, narrowing 1 in ${ratio} to the foot`,
  ];
}
