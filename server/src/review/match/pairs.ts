/** Which things of two lists are the same thing. */

/** Indices into the old and the new list; one of them undefined where the other list has no such thing. */
export interface Pair {
  readonly old: number | undefined;
  readonly next: number | undefined;
}

/** Both indices of a thing that is in both lists. */
export type Both = { readonly old: number; readonly next: number };

export function inBoth(pairs: readonly Pair[]): readonly Both[] {
  return pairs.filter((pair): pair is Both => pair.old !== undefined && pair.next !== undefined);
}

/** One thing's names for itself, the surest first; undefined where it has none of that kind. */
export type Keys = readonly (string | undefined)[];

/**
 * Pairs things by the first kind of key that they share, kind by kind; of several with one key the first goes with the first.
 * @returns those of both lists; what is left over is in neither
 */
export function pairByKeys(old: readonly Keys[], next: readonly Keys[]): Both[] {
  const kinds = Math.max(0, ...old.map((keys) => keys.length));
  const pairs: Both[] = [];
  const taken = { old: new Set<number>(), next: new Set<number>() };
  for (let kind = 0; kind < kinds; kind++) {
    const waiting = new Map<string, number[]>();
    next.forEach((keys, index) => {
      const key = keys[kind];
      if (key !== undefined && !taken.next.has(index)) waiting.set(key, [...(waiting.get(key) ?? []), index]);
    });
    old.forEach((keys, index) => {
      const key = keys[kind];
      const found = key === undefined || taken.old.has(index) ? undefined : waiting.get(key)?.shift();
      if (found === undefined) return;
      pairs.push({ old: index, next: found });
      taken.old.add(index);
      taken.next.add(found);
    });
  }
  return pairs;
}

/** All things of both lists: pairs and new things in the new order, then what is gone in the old order. */
export function completed(both: readonly Both[], oldCount: number, nextCount: number): readonly Pair[] {
  const partner = new Map(both.map(({ old, next }) => [next, old]));
  const kept = new Set(both.map(({ old }) => old));
  return [
    ...Array.from({ length: nextCount }, (_, next) => ({ old: partner.get(next), next })),
    ...Array.from({ length: oldCount }, (_, old) => ({ old, next: undefined })).filter(({ old }) => !kept.has(old)),
  ];
}

/** Whether what both lists have is in another order in the new one. */
export function isReordered(pairs: readonly Pair[]): boolean {
  const inNewOrder = inBoth(pairs).toSorted((a, b) => a.next - b.next);
  return inNewOrder.some(({ old }, i) => i > 0 && old < (inNewOrder[i - 1]?.old ?? old));
}
