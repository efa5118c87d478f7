/** How numbers are shown in hovers, hints and lenses: no digit that the prediction does not support. */

import { signedCents } from "../design/wording.js";
import { decimal } from "../words/decimal.js";
import { t } from "../words/translation.js";

const MINUS = "−";

/** `440.0 Hz`: a tenth of a hertz is under half a cent everywhere in the range of these instruments. */
export function hertz(frequency: number): string {
  return t`${decimal(frequency.toFixed(1))} Hz`;
}

/** `−6.3 cents`. */
export function cents(value: number): string {
  return t`${signedCents(value)} cents`;
}

/** `sharp`, `flat`, or nothing where the rounded value says neither. */
export function direction(value: number): string | undefined {
  if (Number(value.toFixed(1)) === 0) return undefined;
  return value > 0 ? t("sharp") : t("flat");
}

/** `−6.3 cents (flat)`. */
export function centsInWords(value: number): string {
  const word = direction(value);
  return word === undefined ? cents(value) : `${cents(value)} (${word})`;
}

/** `✓` in tune, else the word: nothing may depend on colour alone. */
export function verdict(value: number, tolerance: number): string {
  return Math.abs(value) <= tolerance ? " ✓" : `, ${direction(value) ?? t("off")}`;
}

/** `22`, `22.5`: as few digits as say the value, at most `digits`. */
export function plain(value: number, digits = 3): string {
  return String(Number(value.toFixed(digits))).replace("-", MINUS);
}

export function plural(count: number, singular: string, several = `${singular}s`): string {
  return t(`{0} ${count === 1 ? singular : several}`).replace("{0}", String(count));
}

/** `A4`, or `fingering 3` where its note cannot be read. */
export function fingeringName(fingering: { readonly target: { readonly name: string } | undefined }, index: number) {
  return fingering.target?.name ?? t`fingering ${index + 1}`;
}
