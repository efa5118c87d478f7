/** Changes of holes in words, the same in messages and in the titles of fixes. */

import { sharedColumn } from "../../instrument/body.js";
import { t } from "../../words/translation.js";
import { holePlace } from "../constraints/unknowns.js";
import type { Analysis } from "../predict/analysis.js";
import { drawnLength, toDrawn, unitName } from "../wording.js";
import type { HoleChange } from "./change.js";
import type { WholeChange } from "./wholeChange.js";

/** `move L2 2.4 mm toward the mouth`, `open L2 to 8.6 mm`: the words of message and fix alike. */
export function remedyInWords(analysis: Analysis, change: HoleChange): string {
  if (change.kind === "move") {
    const name = movedNames(analysis, change.hole);
    const way = change.change < 0 ? t("toward the mouth") : t("toward the foot");
    return t`move ${name} ${drawnLength(Math.abs(change.change), analysis.instrument)} ${way}`;
  }
  const name = holeName(analysis, change.hole);
  const drawn = change.value + analysis.instrument.holeUndersize;
  return t`${change.change < 0 ? t("narrow") : t("open")} ${name} to ${drawnLength(drawn, analysis.instrument)}`;
}

/** `S6a and S6b` of two holes under one finger, which move together. */
function movedNames(analysis: Analysis, hole: number): string {
  const { instrument } = analysis;
  const column = sharedColumn(instrument.body);
  const { along = [] } = column === undefined ? {} : holePlace(instrument, column, hole);
  return [hole, ...along]
    .sort((a, b) => a - b)
    .map((each) => holeName(analysis, each))
    .join(" and ");
}

export function holeName(analysis: Analysis, hole: number): string {
  return analysis.instrument.holes[hole]?.name ?? t`hole ${hole + 1}`;
}

/** `move the stopper 1.2 mm toward the mouth`, `make the volume 98.4 cm³`. */
export function wholeRemedyInWords({ instrument }: Analysis, { kind, before, value }: WholeChange): string {
  const rounded = (length: number) => `${toDrawn(length, instrument)} ${unitName(instrument)}`;
  if (kind === "pipe length")
    return t`move the stopper ${rounded(Math.abs(value - before))} ${value < before ? t("toward") : t("away from")} the mouth`;
  if (kind === "vessel volume") return t`make the volume ${Number(value.toFixed(volumeDecimals(value)))} cm³`;
  return t`make the chamber ${rounded(value)} ${kind === "vessel length" ? t("long") : t("in diameter")}`;
}

/** A thousandth of a cavity is 0.9 cents. */
export function volumeDecimals(cubicCentimetres: number): number {
  return cubicCentimetres < 100 ? 2 : 1;
}
