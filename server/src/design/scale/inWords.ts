/** What a size plays, in words, alike on the command line and in the editor. */
import { signedCents } from "../wording.js";
import type { AtSize } from "./atSize.js";

/** `printed at 125 % it plays F4 +13.7 cents, between F4 and F#4; F4 would be 125.99 %, F#4 118.92 %`. */
export function sizeInWords({ percent, plays, keys }: AtSize): string {
  const printed = `printed at ${percentText(percent)} it`;
  if (plays === undefined) return `${printed} plays nothing that could be told`;
  const between = plays.between?.map(({ name }) => name).join(" and ");
  const where = between === undefined ? ", on the note" : `, between ${between}`;
  const sizes = keys.map(({ key, percent: own }, i) => `${key.name} ${i === 0 ? "would be " : ""}${percentText(own)}`);
  return `${printed} plays ${plays.key.name} ${signedCents(plays.cents)} cents${where}; ${sizes.join(", ")}`;
}

/** `125 %`, `126.34 %`: as a slicer takes it. */
export function percentText(percent: number): string {
  return `${Number(percent.toFixed(2))} %`;
}
