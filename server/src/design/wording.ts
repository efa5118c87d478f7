/** How numbers read in messages: the maker's units, no more digits than the model can know. */

import type { Instrument } from "../instrument/model.js";
import { decimal } from "../words/decimal.js";
import { t } from "../words/translation.js";

/** `23 cents flat`, `4.2 cents sharp`, `in tune`: whole cents from 10 on. */
export function deviationInWords(cents: number): string {
  const size = Math.abs(cents);
  if (size < 0.05) return t("in tune");
  return `${centsInWords(size)} ${cents < 0 ? t("flat") : t("sharp")}`;
}

/** What targets leave out for the bench; empty where nothing is. */
export function drawnFlatInWords({ drawnFlat: { holes, length } }: Pick<Instrument, "drawnFlat">): string {
  const said = [
    holes > 0 ? t`notes with an open hole ${centsInWords(holes)}` : "",
    length > 0 ? t`notes of the whole length ${centsInWords(length)}` : "",
  ].filter((part) => part !== "");
  return said.length === 0 ? "" : t`Drawn flat for the bench, and the targets with it: ${said.join(", ")}.`;
}

/** What targets leave to the player's breath; empty where nothing is. */
export function breathInWords({ fingerings }: Pick<Instrument, "fingerings">): string {
  const bends = fingerings.map(({ breath }) => breath);
  const [least, most] = [Math.min(0, ...bends), Math.max(0, ...bends)];
  if (least === 0 && most === 0) return "";
  return t`Predictions and targets assume an even breath; the player bends notes by ${signedCents(least)} to ${signedCents(most)} cents.`;
}

export function centsInWords(size: number): string {
  return t`${size >= 10 ? size.toFixed(0) : decimal(size.toFixed(1))} cents`;
}

/** `+4.2`, `−23.0`: for tables and hints, with a true minus sign. */
export function signedCents(cents: number): string {
  const rounded = cents.toFixed(1);
  if (Number(rounded) === 0) return decimal("0.0");
  return decimal(cents < 0 ? `−${rounded.slice(1)}` : `+${rounded}`);
}

/** A length of the printed object in the file's unit as drawn, with the unit: `8.6 mm`. */
export function drawnLength(metres: number, instrument: Instrument): string {
  return `${toDrawn(metres / instrument.printedUnit, instrument)} ${unitName(instrument)}`;
}

/**
 * A length of the finished thing, or of what is about it, in the file's unit, with the unit: `1.2 mm`, `0.047 in`.
 * @param decimals most of a millimetre; an inch has one more
 */
export function lengthInWords(
  metres: number,
  { unitMillimetres }: Pick<Instrument, "unitMillimetres">,
  decimals = 2,
): string {
  const isMillimetres = unitMillimetres === 1;
  const value = Number(((1e3 * metres) / unitMillimetres).toFixed(isMillimetres ? decimals : decimals + 1));
  return `${value < 0 ? `−${-value}` : value} ${isMillimetres ? "mm" : "in"}`;
}

export function unitName(instrument: Instrument): "mm" | "in" {
  return instrument.unitMillimetres === 1 ? "mm" : "in";
}

/** A value in the file's unit as it is drawn: on a step of the drawing's rounding. */
export function toDrawn(value: number, instrument: Instrument): number {
  const { rounding } = instrument;
  return Number((Math.round(value / rounding) * rounding).toFixed(drawnDecimals(instrument)));
}

/** Decimals that the steps of the drawing's rounding take: 1 for 0.1 mm, 2 for 0.05 mm. */
export function drawnDecimals({ rounding }: Instrument): number {
  for (let decimals = 0; decimals < MOST_DECIMALS; decimals++)
    if (Math.abs(Number(rounding.toFixed(decimals)) - rounding) < 1e-9 * rounding) return decimals;
  return MOST_DECIMALS;
}

/** A thousandth of a millimetre is finer than anything made in a workshop. */
const MOST_DECIMALS = 4;

/** Of a finding: what is wrong, without what to do about it. */
export function firstSentence(message: string): string {
  return message.split(/(?<=\D)\. /)[0] ?? message;
}
