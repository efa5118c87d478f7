/** What a change of key did to the size of an instrument, in words, alike on the command line and in the editor. */

import { t } from "../../words/translation.js";
import { longestOf } from "../predict/body.js";
import { drawnLength } from "../wording.js";
import type { RekeyResult } from "./rekeyResult.js";

/** `print at 89.09 %`, `every dimension 112.20 % of what it was`, `9 dimensions changed, bore 262 mm → 270.7 mm`. */
export function changeInWords({ by, factor, printScalePercent, moves, before, after }: RekeyResult): string {
  if (by === "print-scale") return t`print at ${printScalePercent} %`;
  const percent = percentInWords(factor);
  if (by === "redraw") return t`every dimension ${percent} of what it was`;
  const { length } = moves;
  const changed =
    length === 0
      ? t("no dimensions changed")
      : length === 1
        ? t("1 dimension changed")
        : t`${length} dimensions changed`;
  const [old, now] = [before, after].map(({ instrument }) => drawnLength(longestOf(instrument.body), instrument)) as [
    string,
    string,
  ];
  const subject = t(SIZES[after.instrument.body.kind]);
  return `${changed}, ${subject} ${old === now ? t`stays ${now}` : `${old} → ${now}`}`;
}

/** `G4 → A4`, or the key alone where it stays. */
export function keysInWords({ from, to }: Pick<RekeyResult, "from" | "to">, arrow: string): string {
  return from.name === to.name ? from.name : `${from.name} ${arrow} ${to.name}`;
}

export function percentInWords(factor: number): string {
  return `${(100 * factor).toFixed(2)} %`;
}

/** What the lengths given for a refit belong to. */
const SIZES = { tube: "bore", pipes: "longest pipe", vessel: "chamber" } as const;
