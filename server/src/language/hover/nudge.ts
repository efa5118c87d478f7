/** By how much a maker would change a number to see what happens, and in which words. */

import { sharedColumn } from "../../instrument/body.js";
import type { Path } from "../../instrument/finding.js";
import type { ResolvedNumber } from "../../instrument/formula/resolvedNumber.js";
import type { Instrument } from "../../instrument/model.js";
import { t } from "../../words/translation.js";
import { plain } from "../words.js";

export interface Nudge {
  /** In the number's own unit, with its sign. */
  readonly size: number;
  readonly words: string;
}

/** Undefined for numbers whose effect is shown elsewhere or is none. */
export function nudgeOf({ path, quantity, value }: ResolvedNumber, instrument: Instrument): Nudge | undefined {
  const [part] = path;
  const name = String(path.at(-1));
  if (part === "parameters") {
    return value === 0 ? undefined : { size: value / 100, words: t`1 % more (${plain(value * 1.01, 4)})` };
  }
  if (part === "air") return name === "temperature" ? { size: 1, words: t("1 °C warmer") } : airNudge(name);
  if (part === "print") return printNudge(name, instrument);
  if (part === "mouth" && SHARES.has(path.slice(1).join("."))) return { size: 0.05, words: t("0.05 more") };
  if (quantity === "volume") return { size: value / 100, words: t("1 % more") };
  if (quantity !== "length" || !["mouth", "bore", "holes", "wall", "pipes", "vessel"].includes(String(part)))
    return undefined;
  if (part === "mouth" && UNHEARD.has(String(path[1]))) return undefined;
  if (name === "at") return placeNudge(path, instrument);
  const coarse = name === "stopper" || name === "correction" || (name === "length" && part !== "mouth");
  const { size, words } = length(instrument, coarse);
  return { size, words: `${words} ${t(COMPARATIVE[name] ?? "more")}` };
}

/** Numbers of the mouth without a unit that move the pitch. */
const SHARES: ReadonlySet<string> = new Set(["cover", "window.labium"]);

/** Parts of the mouth that shape the jet and not the pitch. */
const UNHEARD: ReadonlySet<string> = new Set(["windway", "lips", "chamber", "block"]);

const COMPARATIVE: Readonly<Record<string, string>> = {
  diameter: "wider",
  width: "wider",
  length: "longer",
  cutUp: "longer",
  chimney: "taller",
  undercut: "more undercut",
  raised: "higher",
  wall: "thicker",
  stopper: "farther out",
};

/** A hole is moved toward the mouth, the last station makes the tube longer, another goes down the bore. */
function placeNudge([list, index]: Path, instrument: Instrument): Nudge {
  const { size, words } = length(instrument, true);
  if (list === "holes") return { size: -size, words: t`${words} nearer the mouth` };
  const last = (sharedColumn(instrument.body)?.bore.length ?? 0) - 1;
  return { size, words: `${words} ${index === last ? t("longer") : t("farther from the mouth")}` };
}

/** A length a maker thinks in: coarse for places, fine for widths. */
function length({ unitMillimetres }: Instrument, coarse: boolean): Nudge {
  if (unitMillimetres === 1) return coarse ? { size: 1, words: "1 mm" } : { size: 0.1, words: "0.1 mm" };
  return coarse ? { size: 0.05, words: "0.05 in" } : { size: 0.005, words: "0.005 in" };
}

function airNudge(name: string): Nudge | undefined {
  if (name === "humidity") return { size: 10, words: t("10 % damper") };
  return name === "carbonDioxide" ? { size: 1, words: t("1 % more") } : undefined;
}

function printNudge(name: string, instrument: Instrument): Nudge | undefined {
  if (name === "scale") return { size: 1, words: t("1 % more") };
  if (name === "shrinkage") return { size: 0.1, words: t("0.1 % more") };
  if (name !== "holeUndersize") return undefined;
  const { size, words } = length(instrument, false);
  return { size, words: t`${words} more` };
}
