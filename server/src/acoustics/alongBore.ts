/** Sizes given at stations along an axis. */

/**
 * The size at `at`, in the unit of `sizeOf`; `at` in that of `placeOf`. Straight between stations, beyond them that of the nearest; at a step the size after it. Undefined where there is no
 * station, or one that is needed has no place or size yet.
 */
export function alongBore<S>(
  stations: Iterable<S>,
  at: number,
  placeOf: (station: S) => number | undefined,
  sizeOf: (station: S) => number | undefined,
): number | undefined {
  let place: number | undefined;
  let size: number | undefined;
  for (const station of stations) {
    const [nextPlace, nextSize] = [placeOf(station), sizeOf(station)];
    if (nextPlace === undefined || nextSize === undefined) return undefined;
    if (nextPlace > at) {
      if (place === undefined || size === undefined) return nextSize;
      return size + ((at - place) / (nextPlace - place)) * (nextSize - size);
    }
    [place, size] = [nextPlace, nextSize];
  }
  return size;
}
