/**
 * Temperaments as cents above their root, worked out from the size of each fifth. Definitions: the named authors'
 * temperings as commonly tabulated; test/music/temperament.test.ts checks them against published tables.
 */
import { centsOfRatio } from "./cents.js";

export const TEMPERAMENT_NAMES = [
  "equal",
  "just",
  "pythagorean",
  "meantone",
  "werckmeister-3",
  "kirnberger-3",
  "vallotti",
] as const;
export type TemperamentName = (typeof TEMPERAMENT_NAMES)[number];

/** Twelve cents above the root, the root's own 0 first, upward by semitones. */
export type TwelveCents = readonly number[];

const PURE_FIFTH = centsOfRatio(3 / 2);
const PYTHAGOREAN_COMMA = 12 * PURE_FIFTH - 7 * 1200;
const SYNTONIC_COMMA = centsOfRatio(81 / 80);
const SCHISMA = PYTHAGOREAN_COMMA - SYNTONIC_COMMA;

/** Ratios of five-limit just intonation above the root. */
const JUST_RATIOS = [1, 16 / 15, 9 / 8, 6 / 5, 5 / 4, 4 / 3, 45 / 32, 3 / 2, 8 / 5, 5 / 3, 9 / 5, 15 / 8];

/**
 * A row of twelve from the amount by which each fifth upward from the root is narrowed; the first eight fifths are stacked
 * upward and the last three downward, so that the wolf, if any, lies between G♯ and E♭ of a root C.
 */
function fromFifths(narrowed: readonly number[]): TwelveCents {
  const upward = 8;
  const cents: number[] = new Array(12).fill(0);
  let sum = 0;
  for (let i = 0; i < upward; i++) {
    sum += PURE_FIFTH - (narrowed[i] ?? 0);
    cents[(7 * (i + 1)) % 12] = modulo(sum);
  }
  sum = 0;
  for (let i = 11; i > upward; i--) {
    sum -= PURE_FIFTH - (narrowed[i] ?? 0);
    cents[(7 * i) % 12] = modulo(sum);
  }
  return cents;
}

function modulo(cents: number): number {
  return ((cents % 1200) + 1200) % 1200;
}

const quarterComma = SYNTONIC_COMMA / 4;
const quarterPythagorean = PYTHAGOREAN_COMMA / 4;
const sixthPythagorean = PYTHAGOREAN_COMMA / 6;

/** Fifths in circle order from the root: C–G, G–D, D–A, A–E, E–B, B–F♯, F♯–C♯, C♯–G♯, (G♯–E♭), E♭–B♭, B♭–F, F–C. */
const ROWS: Record<TemperamentName, TwelveCents> = {
  equal: Array.from({ length: 12 }, (_, i) => 100 * i),
  just: JUST_RATIOS.map(centsOfRatio),
  pythagorean: fromFifths([]),
  meantone: fromFifths(new Array(12).fill(quarterComma)),
  "werckmeister-3": fromFifths([quarterPythagorean, quarterPythagorean, quarterPythagorean, 0, 0, quarterPythagorean]),
  "kirnberger-3": fromFifths([quarterComma, quarterComma, quarterComma, quarterComma, 0, 0, SCHISMA]),
  vallotti: fromFifths([...new Array(5).fill(sixthPythagorean), 0, 0, 0, 0, 0, 0, sixthPythagorean]),
};

export function temperamentCents(name: TemperamentName): TwelveCents {
  return ROWS[name];
}

/** Where a named temperament starts: just intonation on the key's own note, the historical ones on C as published. */
export function rootFollowsKey(name: TemperamentName): boolean {
  return name === "just";
}
