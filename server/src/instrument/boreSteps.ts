/** Steps of the bore: two stations at one place. */
import type { Draft, DraftStation } from "./draft.js";

/** A changed draft in which stations that stood at one place still do: they are one edge of the finished bore, and move together. */
export function stepsKept(before: Draft, changed: Draft): Draft {
  const { bore } = changed;
  if (bore === undefined || before.bore === undefined) return changed;
  return { ...changed, bore: bore.map((station, i) => movedAlong(station, i, before.bore ?? [], bore)) };
}

function movedAlong(
  station: DraftStation,
  index: number,
  before: readonly DraftStation[],
  after: readonly DraftStation[],
): DraftStation {
  const place = before[index]?.at;
  const moved = before.findIndex(({ at }, i) => i !== index && at === place && after[i]?.at !== place);
  return place === undefined || station.at !== place || moved < 0 ? station : { ...station, at: after[moved]?.at };
}
