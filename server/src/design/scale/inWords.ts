/** What a size plays, in words, alike on the command line and in the editor. */

import { t } from "../../words/translation.js";
import { signedCents } from "../wording.js";
import type { AtSize } from "./atSize.js";

/** `printed at 125 % it plays F4 +13.7 cents, between F4 and F#4; F4 would be 125.99 %, F#4 118.92 %`. */
export function sizeInWords({ percent, plays, keys }: AtSize): string {
  const size = percentText(percent);
  if (plays === undefined) return t`printed at ${size} it plays nothing that can be predicted`;
  const between = plays.between?.map(({ name }) => name).join(t(" and "));
  const sizes = keys
    .map(({ key, percent: own }, i) =>
      i === 0 ? t`${key.name} would be ${percentText(own)}` : `${key.name} ${percentText(own)}`,
    )
    .join(", ");
  const cents = signedCents(plays.cents);
  return between === undefined
    ? t`printed at ${size} it plays ${plays.key.name} ${cents} cents, on the note; ${sizes}`
    : t`printed at ${size} it plays ${plays.key.name} ${cents} cents, between ${between}; ${sizes}`;
}

/** `125 %`, `126.34 %`: as a slicer takes it. */
export function percentText(percent: number): string {
  return `${Number(percent.toFixed(2))} %`;
}
