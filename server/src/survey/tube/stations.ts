/** The bore's outline: the fewest stations that explain its samples, with straight lines between. */
import { lineThrough } from "../mesh/statistics.js";

export interface Sample {
  readonly z: number;
  readonly diameter: number;
}

/** Samples used: the search grows with their square. */
const MOST = 700;

/** By dynamic programming over the samples; then lines are fitted and knots lie where they meet. @param tolerance on the diameter */
export function stationsOf(all: readonly Sample[], tolerance: number): readonly Sample[] {
  const every = Math.max(1, Math.ceil(all.length / MOST));
  const samples = all.filter((_, i) => i % every === 0 || i === all.length - 1);
  if (samples.length < 3) return samples;
  const knots = knotsOf(samples, tolerance);
  const lines = knots.slice(1).map((to, i) => {
    const part = samples.slice(knots[i], to + 1);
    const used = part.length > 6 ? part.slice(1, -1) : part;
    return lineThrough(
      used.map(({ z }) => z),
      used.map(({ diameter }) => diameter),
    );
  });
  const place = (knot: number) => (samples[knots[knot] as number] as Sample).z;
  return knots.map((_, i) => {
    const [before, after] = [lines[i - 1], lines[i]];
    const at = (line: typeof before, z: number) => (line === undefined ? undefined : line.start + line.slope * z);
    if (before === undefined || after === undefined)
      return { z: place(i), diameter: at(before ?? after, place(i)) ?? Number.NaN };
    const meeting = (after.start - before.start) / (before.slope - after.slope);
    const z = meeting > place(i - 1) && meeting < place(i + 1) ? meeting : place(i);
    return { z, diameter: ((at(before, z) as number) + (at(after, z) as number)) / 2 };
  });
}

/** Indices of the fewest samples whose straight connections keep within the tolerance; of as many, the least up and down. */
function knotsOf(samples: readonly Sample[], tolerance: number): readonly number[] {
  const count = samples.length;
  const cost = new Float64Array(count).fill(Infinity);
  const roughness = new Float64Array(count).fill(Infinity);
  const previous = new Int32Array(count).fill(-1);
  cost[0] = 0;
  roughness[0] = 0;
  for (let i = 0; i < count - 1; i++) {
    const a = samples[i] as Sample;
    let [low, high] = [-Infinity, Infinity];
    for (let j = i + 1; j < count && low <= high; j++) {
      const b = samples[j] as Sample;
      const length = b.z - a.z;
      const slope = (b.diameter - a.diameter) / length;
      if (slope >= low && slope <= high) {
        const [steps, rough] = [(cost[i] as number) + 1, (roughness[i] as number) + Math.abs(slope)];
        if (steps < (cost[j] as number) || (steps === cost[j] && rough < (roughness[j] as number))) {
          cost[j] = steps;
          roughness[j] = rough;
          previous[j] = i;
        }
      }
      low = Math.max(low, (b.diameter - tolerance - a.diameter) / length);
      high = Math.min(high, (b.diameter + tolerance - a.diameter) / length);
    }
  }
  const knots: number[] = [];
  for (let k = count - 1; k >= 0; k = previous[k] as number) {
    knots.unshift(k);
    if ((previous[k] as number) < 0) break;
  }
  return knots;
}
