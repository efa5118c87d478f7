/** The effect of a small increase of a number on the pitch, from the sensitivities of the prediction. */

import type { Steps } from "../../acoustics/steps.js";
import { Budget, within } from "../../acoustics/work.js";
import { slopeSteps } from "../../design/predict/sensitivity.js";
import { signedCents } from "../../design/wording.js";
import { numberAt } from "../../document/designNumbers.js";
import type { Path } from "../../instrument/finding.js";
import type { ResolvedNumber } from "../../instrument/formula/resolvedNumber.js";
import { pathKey } from "../../instrument/path.js";
import { t } from "../../words/translation.js";
import { ANSWER_WORK } from "../bandsInTime.js";
import { fingeringName } from "../words.js";
import { nudgeOf } from "./nudge.js";
import type { HoverPlace, HoverTopic } from "./place.js";

/** A shift smaller than this cannot be heard or shown. Cents. */
const NOTHING = 0.05;
/** This many notes are named one by one, those that move most; for the others, the ends of the range. */
const MOST_NAMED = 3;
/** Where the smallest shift is at least this share of the largest, all notes move alike and none is named separately. */
const ALIKE = 0.5;

interface Shift {
  readonly name: string;
  readonly cents: number;
}

/**
 * `1 mm nearer the mouth: +6.1 cents on A4, +0.4 on G4.` On a hole or a station as a whole, its place and its diameter. Nothing
 * for a number that the pitch does not depend on in this way.
 */
export const effect: HoverTopic = function* (place) {
  const { path, document } = place;
  const paths = isPart(path)
    ? [
        [...path.slice(0, 2), "at"],
        [...path.slice(0, 2), "diameter"],
      ]
    : [path];
  const numbers = paths.flatMap((wanted) => numberAt(document, wanted) ?? []);
  const sentences: string[] = [];
  for (const number of numbers) sentences.push(...(yield* sentence(place, number)));
  return sentences;
};

/** A hole or a station as a whole, or its name. */
function isPart([list, index, name]: Path): boolean {
  return (list === "holes" || list === "bore") && typeof index === "number" && (name === undefined || name === "name");
}

function* sentence({ document, analysis }: HoverPlace, number: ResolvedNumber): Steps<string[]> {
  const nudge = nudgeOf(number, analysis.instrument);
  if (nudge === undefined) return [];
  const slopes = slopeSteps(document.resolution, analysis, { paths: [number.path] });
  const found = (yield* within(new Budget(ANSWER_WORK), slopes))?.get(pathKey(number.path));
  const shifts = (found?.centsPerUnit ?? []).flatMap((perUnit, index): Shift[] => {
    const fingering = analysis.fingerings[index]?.fingering;
    if (perUnit === undefined || fingering === undefined) return [];
    return [{ name: fingeringName(fingering, index), cents: perUnit * nudge.size }];
  });
  return shifts.length === 0 ? [] : [`${nudge.words}: ${inWords(shifts)}.`];
}

function inWords(shifts: readonly Shift[]): string {
  const sorted = [...shifts].sort((a, b) => Math.abs(b.cents) - Math.abs(a.cents));
  const [largest, smallest] = [sorted[0]?.cents ?? 0, sorted.at(-1)?.cents ?? 0];
  if (Math.abs(largest) < NOTHING) return t("no noticeable change of pitch");
  if (shifts.length > MOST_NAMED && smallest / largest > ALIKE) return t`all notes ${range(shifts)}`;
  const named = sorted.slice(0, MOST_NAMED).filter(({ cents }) => Math.abs(cents) >= NOTHING);
  const others = sorted.slice(named.length);
  const list = named
    .map(({ name, cents }, i) => t`${signedCents(cents)}${i === 0 ? t(" cents") : ""} on ${name}`)
    .join(", ");
  return others.length === 0 ? list : t`${list}; the others ${range(others)}`;
}

function range(shifts: readonly Shift[]): string {
  const cents = shifts.map((shift) => shift.cents);
  const [least, greatest] = [signedCents(Math.min(...cents)), signedCents(Math.max(...cents))];
  if (least === "0.0" && greatest === "0.0") return t("stay");
  return least === greatest ? t`${least} cents` : t`${least} to ${greatest} cents`;
}
