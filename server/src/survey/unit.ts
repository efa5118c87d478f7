/** In which unit a file's numbers are, where it states none: the first in which they make an instrument. */

import { t } from "../words/translation.js";
import { CannotSurvey } from "./refusal.js";

export const UNITS = { mm: 1, in: 25.4, cm: 10, m: 1000 } as const;
export type UnitName = keyof typeof UNITS;

/** mm: what bores, lengths and walls of the instruments that are described keep within. Common practice, no source. */
const USUAL = { bore: [7, 48], length: [60, 1300], wall: [0.4, 12], vessel: [25, 300] } as const;
/** Of bores that fit in two units, the nearer to this is taken. */
const COMMON_BORE = 17;
/** A vessel is about this many times as long as a common bore is wide. Common practice, no source. */
const VESSEL_IN_BORES = 5;
/** Sum of logarithms by which sizes leave the usual: a factor of 3 in all is not an instrument. */
const MOST = Math.log(3);

const IN_WORDS = { mm: "millimetres", in: "inches", cm: "centimetres", m: "metres" } as const;

export interface UnitGuess {
  readonly unit: UnitName;
  readonly note: string | undefined;
  readonly question: string;
}

/** In the file's numbers; undefined where there is no bore. */
export interface Sizes {
  readonly radius: number | undefined;
  readonly wall: number | undefined;
  readonly length: number;
}

/** @throws CannotSurvey where no unit makes it an instrument */
export function guessUnit({ radius, wall, length }: Sizes): UnitGuess {
  const off = (value: number | undefined, [least, most]: readonly [number, number], k: number) =>
    value === undefined ? 0 : Math.log(Math.max(least / (value * k), (value * k) / most, 1));
  const bore = radius === undefined ? undefined : 2 * radius;
  const names = Object.keys(UNITS) as UnitName[];
  const scored = names.map((unit) => {
    const k = UNITS[unit];
    const score =
      off(bore, USUAL.bore, k) +
      off(length, bore === undefined ? USUAL.vessel : USUAL.length, k) +
      off(wall, USUAL.wall, k);
    return { unit, score, away: Math.abs(Math.log(((bore ?? length / VESSEL_IN_BORES) * k) / COMMON_BORE)) };
  });
  const millimetres = scored[0] as (typeof scored)[number];
  const best = [...scored].sort((a, b) => a.score - b.score || a.away - b.away)[0] as (typeof scored)[number];
  const taken = millimetres.score === 0 ? millimetres : best;
  const [what, size] = bore === undefined ? ["it would be", length] : ["the bore would be", bore];
  const as = bore === undefined ? "long" : "wide";
  if (taken.score > MOST)
    throw new CannotSurvey(
      bore === undefined
        ? t`It is not the size of an instrument in any unit: in millimetres it would be ${short(size)} long. Scale it, or say the unit with --unit.`
        : t`It is not the size of an instrument in any unit: in millimetres the bore would be ${short(size)} wide. Scale it, or say the unit with --unit.`,
    );
  if (taken.unit === "mm")
    return {
      unit: "mm",
      note: undefined,
      question: "Is the file in millimetres? It states no unit; millimetres were assumed.",
    };
  return {
    unit: taken.unit,
    note: `The file states no unit. In millimetres ${what} ${short(size)} ${as}; taken in ${IN_WORDS[taken.unit]}, it is ${short(size * UNITS[taken.unit])} mm.`,
    question: `Is the file in ${IN_WORDS[taken.unit]}? Say --unit if it is not.`,
  };
}

function short(value: number): string {
  return String(Number(value.toPrecision(3)));
}
