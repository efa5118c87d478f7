/** How numbers read in messages: the maker's units, no more digits than the model can know. */
import type { Instrument } from "../instrument/model.js";

/** `23 cents flat`, `4.2 cents sharp`, `in tune`: whole cents from 10 on. */
export function deviationInWords(cents: number): string {
  const size = Math.abs(cents);
  if (size < 0.05) return "in tune";
  return `${centsInWords(size)} ${cents < 0 ? "flat" : "sharp"}`;
}

export function centsInWords(size: number): string {
  return `${size >= 10 ? size.toFixed(0) : size.toFixed(1)} cents`;
}

/** `+4.2`, `−23.0`: for tables and hints, with a true minus sign. */
export function signedCents(cents: number): string {
  const rounded = cents.toFixed(1);
  if (Number(rounded) === 0) return "0.0";
  return cents < 0 ? `−${rounded.slice(1)}` : `+${rounded}`;
}

/** A length of the printed object in the file's unit as drawn, with the unit: `8.6 mm`. */
export function drawnLength(metres: number, instrument: Instrument): string {
  return `${Number((metres / instrument.printedUnit).toFixed(drawnDecimals(instrument)))} ${unitName(instrument)}`;
}

export function unitName(instrument: Instrument): string {
  return instrument.unitMillimetres === 1 ? "mm" : "in";
}

/** Decimals to which changed places and diameters are rounded: 0.1 mm, what a printer resolves; a thousandth of an inch. */
export function drawnDecimals(instrument: Instrument): number {
  return instrument.unitMillimetres === 1 ? 1 : 3;
}
