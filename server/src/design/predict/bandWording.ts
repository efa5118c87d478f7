/** How a band of cents reads, alike in table, hover and hints. */
import { t } from "../../words/translation.js";
import type { Band, BandSource, Reach } from "./band.js";

const WORDS: Record<BandSource, string> = {
  mouth: "the mouth",
  shape: "the chamber's shape",
  air: "the air",
  print: "the print",
  rival: "a second resonance",
};

/** `±23 cents, mostly the mouth`; `−12 to +43 cents, mostly the mouth`. */
export function bandInWords({ reach, mostly }: Band): string {
  return t`${reachInWords(reach)} cents${mostly === undefined ? "" : t`, mostly ${t(WORDS[mostly])}`}`;
}

/** `all notes together ±21, against each other ±9`. */
export function bandPartsInWords({ togetherReach, against }: Band): string {
  return t`all notes together ${reachInWords(togetherReach)}, this one against the others ±${spread(against)}`;
}

/** `±23`, or `−12 to +43` where the sides differ. */
export function reachInWords({ below, above }: Reach): string {
  return spread(below) === spread(above) ? `±${spread(above)}` : t`−${spread(below)} to +${spread(above)}`;
}

/** The band for all notes at once: the widest of them and its parts. Undefined where nothing is predicted. */
export function bandSummary(bands: readonly (Band | undefined)[]): string | undefined {
  const known = bands.filter((band) => band !== undefined);
  const widest = [...known].sort((a, b) => b.cents - a.cents)[0];
  if (widest === undefined) return undefined;
  const against = Math.max(...known.map((band) => band.against));
  const least = Math.min(...known.map((band) => band.cents));
  const { below, above } = widest.reach;
  const isRange = spread(below) === spread(above) && spread(least) !== spread(widest.cents);
  const range = isRange ? t`±${spread(least)} to ${spread(widest.cents)}` : reachInWords(widest.reach);
  const mostly = widest.mostly === undefined ? "" : t`, mostly ${t(WORDS[widest.mostly])}`;
  return t`Good to ${range} cents${mostly}: all notes together ${reachInWords(widest.togetherReach)}, one against the others up to ±${spread(against)}.`;
}

/** Whole cents: a band has no tenths. */
function spread(cents: number): string {
  return cents.toFixed(0);
}
