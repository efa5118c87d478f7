/** Lengths in sentences, in the maker's unit. */
import { besideEachOther, roundedDown, roundedUp, type Shown } from "./digits.js";

type Decimals = { readonly mm: number; readonly in: number };

interface InUnit {
  readonly unit: keyof Decimals;
}

/** For what is measured on a print or a hand: a printed surface is no truer (`DEFAULTS.printToleranceMillimetres`). */
export const MEASURED: Decimals = { mm: 1, in: 2 };
/** For what is drawn or stated, and walls, whose lines differ by hundredths. */
export const DRAWN: Decimals = { mm: 2, in: 3 };
/** For what the maker is to redraw a hole to: finer is not printed. */
export const REDRAWN: Decimals = { mm: 1, in: 3 };

/** A size in the file's unit, for `lengthsBeside`. */
export function length(value: number, decimals: Decimals, { unit }: InUnit): Shown {
  return { value, decimals: decimals[unit] };
}

/** `41.2 mm` and `34 mm`: sizes that a sentence compares, each with its meaningful digits, and different sizes never the same. */
export function lengthsBeside<const T extends readonly Shown[]>(sizes: T, { unit }: InUnit) {
  return besideEachOther(sizes).map((text) => `${text} ${unit}`) as { readonly [K in keyof T]: string };
}

/** The same of drawn lengths. */
export function drawnBeside<const T extends readonly number[]>(sizes: T, draft: InUnit) {
  const shown = sizes.map((size) => length(size, DRAWN, draft));
  return lengthsBeside(shown, draft) as { readonly [K in keyof T]: string };
}

/** A length alone in a sentence: `12.5 mm`; a length above 0 never reads as 0. */
export function lengthText(value: number, draft: InUnit, decimals = DRAWN): string {
  return lengthsBeside([length(value, decimals, draft), { value: 0, decimals: 0 }], draft)[0];
}

/** A length that the maker is told not to exceed. */
export function atMostText(value: number, draft: InUnit, decimals = DRAWN): string {
  return `${drawnAtMost(value, draft, decimals)} ${draft.unit}`;
}

/** A length that the maker is told to reach. */
export function atLeastText(value: number, draft: InUnit, decimals = DRAWN): string {
  return `${drawnAtLeast(value, draft, decimals)} ${draft.unit}`;
}

/** The largest number to write for a length of at most `value`. */
export function drawnAtMost(value: number, { unit }: InUnit, decimals = DRAWN): number {
  return roundedDown(value, decimals[unit]);
}

/** The smallest number to write for a length of at least `value`. */
export function drawnAtLeast(value: number, { unit }: InUnit, decimals = DRAWN): number {
  return roundedUp(value, decimals[unit]);
}
