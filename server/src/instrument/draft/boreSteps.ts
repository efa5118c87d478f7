/** Steps of the bore: two stations at one place. */
import type { Draft, DraftStation } from "./draft.js";

/** A changed draft in which stations that stood at one place still do: they are one edge of the finished bore, and move together. */
export function stepsKept(before: Draft, changed: Draft): Draft {
  const { bore } = changed;
  if (bore === undefined || before.bore === undefined) return changed;
  // Usually one of a thousand stations.
  const moved = before.bore.flatMap(({ at }, i) => (at === bore[i]?.at ? [] : [{ from: at, to: bore[i]?.at }]));
  if (moved.length === 0) return changed;
  const movedAlong = (station: DraftStation): DraftStation => {
    const step = station.at === undefined ? undefined : moved.find(({ from }) => from === station.at);
    return step === undefined ? station : { ...station, at: step.to };
  };
  return {
    ...changed,
    bore: bore.map((station, i) => (station.at === before.bore?.[i]?.at ? movedAlong(station) : station)),
  };
}
