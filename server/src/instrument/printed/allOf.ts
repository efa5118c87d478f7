/** The results in order, or undefined if any of them is. */
export function allOf<T, R>(items: readonly T[], make: (item: T) => R | undefined): readonly R[] | undefined {
  const made = items.map(make).filter((item) => item !== undefined);
  return made.length === items.length ? made : undefined;
}

/** Whether all of these can be sizes of a thing, in any unit. */
export function areSizes(sizes: readonly number[]): boolean {
  return sizes.every((size) => Number.isFinite(size) && size > 0);
}
