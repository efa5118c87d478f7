/** In which unit a file's numbers are, where it states none: the first in which they make an instrument. */
import type { Axis } from "./axis/straight.js";
import { CannotSurvey } from "./refusal.js";

export const UNITS = { mm: 1, in: 25.4, cm: 10, m: 1000 } as const;
export type UnitName = keyof typeof UNITS;

/** mm: what bores, lengths and walls of the instruments that are described keep within. Common practice, no source. */
const USUAL = { bore: [7, 48], length: [60, 1300], wall: [0.4, 12] } as const;
/** Of bores that fit in two units, the nearer to this is taken. */
const COMMON_BORE = 17;
/** Sum of logarithms by which sizes leave what is usual: a factor of 3 in all is no instrument. */
const MOST = Math.log(3);

const IN_WORDS = { mm: "millimetres", in: "inches", cm: "centimetres", m: "metres" } as const;

export interface UnitGuess {
  readonly unit: UnitName;
  readonly note: string | undefined;
  readonly question: string;
}

/** @throws CannotSurvey where no unit makes it an instrument */
export function guessUnit({ radius, wall, length }: Pick<Axis, "radius" | "wall" | "length">): UnitGuess {
  const off = (value: number, [least, most]: readonly [number, number]) =>
    Math.log(Math.max(least / value, value / most, 1));
  const names = Object.keys(UNITS) as UnitName[];
  const scored = names.map((unit) => {
    const k = UNITS[unit];
    const score = off(2 * radius * k, USUAL.bore) + off(length * k, USUAL.length) + off(wall * k, USUAL.wall);
    return { unit, score, away: Math.abs(Math.log((2 * radius * k) / COMMON_BORE)) };
  });
  const millimetres = scored[0] as (typeof scored)[number];
  const best = [...scored].sort((a, b) => a.score - b.score || a.away - b.away)[0] as (typeof scored)[number];
  const taken = millimetres.score === 0 ? millimetres : best;
  if (taken.score > MOST)
    throw new CannotSurvey(
      `In no unit is it an instrument: its bore would be ${short(2 * radius)} wide and ${short(length)} long. Scale it, or say the unit with --unit.`,
    );
  if (taken.unit === "mm")
    return { unit: "mm", note: undefined, question: "Is the file in millimetres? It states no unit; they were taken." };
  const bore = 2 * radius;
  return {
    unit: taken.unit,
    note: `The file states no unit. In millimetres the bore would be ${short(bore)} wide; taken in ${IN_WORDS[taken.unit]}, it is ${short(bore * UNITS[taken.unit])} mm.`,
    question: `Is the file in ${IN_WORDS[taken.unit]}? Say --unit if it is not.`,
  };
}

function short(value: number): string {
  return String(Number(value.toPrecision(3)));
}
