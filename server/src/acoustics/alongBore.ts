/** Sizes given at stations along an axis. */

/**
 * The stations before and after the place `at`, by index, and how far it lies from the first to the second, 0 to 1: beyond the ends the end
 * station twice, at a step the one after it. Undefined where there is no station, or one that is needed has no place yet. `at` in the unit of `placeOf`.
 */
export function stationsAround<S>(
  stations: readonly S[],
  at: number,
  placeOf: (station: S) => number | undefined,
): readonly [before: number, after: number, share: number] | undefined {
  let before = 0;
  for (let i = 0; i < stations.length; i++) {
    const next = placeOf(stations[i] as S);
    if (next === undefined) return undefined;
    if (next > at) {
      if (i === 0) return [0, 0, 0];
      const place = placeOf(stations[before] as S) as number;
      return [before, i, (at - place) / (next - place)];
    }
    before = i;
  }
  return stations.length === 0 ? undefined : [before, before, 0];
}

/**
 * The size at `at`, in the unit of `sizeOf`; `at` in that of `placeOf`. Straight between stations, beyond them that of the nearest; at a step the size after it. Undefined where there is no
 * station, or one that is needed has no place or size yet.
 */
export function alongBore<S>(
  stations: readonly S[],
  at: number,
  placeOf: (station: S) => number | undefined,
  sizeOf: (station: S) => number | undefined,
): number | undefined {
  const known = (station: S) => (sizeOf(station) === undefined ? undefined : placeOf(station));
  const around = stationsAround(stations, at, known);
  if (around === undefined) return undefined;
  const [before, after, share] = around;
  const [size, next] = [sizeOf(stations[before] as S) as number, sizeOf(stations[after] as S) as number];
  return share === 0 ? size : size + share * (next - size);
}
