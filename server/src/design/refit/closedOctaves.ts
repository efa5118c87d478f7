/** Notes that no hole can bring into tune: those fingered with every hole closed, whose octaves the bore and the mouth alone decide. */
import { sharedColumn } from "../../instrument/body.js";
import { bodyTraits } from "../../instrument/families/bodyTraits.js";
import type { Resolution } from "../../instrument/model.js";
import { valueAt } from "../../instrument/path.js";
import { decimal } from "../../words/decimal.js";
import { t } from "../../words/translation.js";
import type { Analysis } from "../predict/analysis.js";

/**
 * Reports such notes if they stay out of tolerance even when the whole is made longer or shorter until they are equally far off, and what the bore
 * would need. A mouth that acts deeper than drawn is enough for it: it flattens low notes more than high ones.
 */
export function closedOctaves(after: Analysis, { draft }: Pick<Resolution, "draft">): readonly string[] {
  const column = sharedColumn(after.instrument.body);
  if (column === undefined || !bodyTraits(after.instrument.body).hasRegisters) return [];
  const notes = after.fingerings.flatMap(({ fingering: { covers, target }, cents }) =>
    covers?.every((cover) => cover === 1) && cents !== undefined ? [{ name: target?.name ?? "?", cents }] : [],
  );
  const [lowest, highest] = [least(notes, 1), least(notes, -1)];
  if (lowest === undefined || highest === undefined) return [];
  const spread = highest.cents - lowest.cents;
  if (spread / 2 <= after.tolerance) return [];
  const holes = column.holes.map(({ x }) => x);
  const hasStation = column.bore.slice(1, -1).some(({ x }) => x > 0 && x < Math.min(...holes));
  const isFree = valueAt(draft.data, ["refit", "taper"]) === "free";
  if (hasStation && isFree) return [];
  const wants = [
    ...(hasStation ? [] : [t("give it a station between the mouth and the first hole")]),
    ...(isFree ? [] : [t("let it change: `refit: { taper: free }`")]),
  ];
  const [cents, each] = [spread, spread / 2].map((value) => decimal(value.toFixed(1)));
  return [
    t`${lowest.name} and ${highest.name}, fingered with every hole closed, lie ${cents} cents off their interval: no hole brings both closer than ${each}. Only the bore's shape does: ${wants.join(t(", and "))}.`,
  ];
}

interface Note {
  readonly name: string;
  readonly cents: number;
}

function least(notes: readonly Note[], sign: 1 | -1): Note | undefined {
  return [...notes].sort((a, b) => sign * (a.cents - b.cents))[0];
}
