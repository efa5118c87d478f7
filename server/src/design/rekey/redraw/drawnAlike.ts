/**
 * Dimensions of a redraw put on the steps of the drawing: each on the step below its exact value or on the one above, chosen so that
 * the roundings cancel in the notes. Numbers that were equal stay equal.
 */

export interface Scaled {
  /** Exact, in its own unit. */
  readonly value: number;
  readonly step: DecimalStep;
  /** Numbers of one group get one value. */
  readonly group: string;
  /** Cents by which each note rises for one unit more. */
  readonly slopes: readonly number[];
}

/** A step of the drawing, in the number's own unit, and the decimals that it takes. */
export interface DecimalStep {
  readonly size: number;
  readonly decimals: number;
}

/** Cost of a whole step that affects no note, cents: small, but enough to prefer the closer step. */
const UNHEARD = 0.1;
/** Most passes over all dimensions; in practice three or four are enough. */
const MOST_PASSES = 12;
/** Cents squared below which a change is not worth making. */
const LEAST_GAIN = 1e-6;

/** The nearest step. */
export function onStep(value: number, { size, decimals }: DecimalStep): number {
  return Number((Math.round(value / size) * size).toFixed(decimals));
}

export interface Drawn {
  /** In the order given. */
  readonly values: readonly number[];
  /** Largest shift of a note by rounding, cents, from the slopes. */
  readonly cents: number;
}

/** By the notes' slopes, one group and then two at a time, while that brings the notes closer. */
export function drawnAlike(numbers: readonly Scaled[]): Drawn {
  const members = new Map<string, Scaled[]>();
  for (const number of numbers) members.set(number.group, [...(members.get(number.group) ?? []), number]);
  const groups = [...members.values()].map(groupOf);
  let off = addedUp(
    [],
    groups.map(({ effects }) => effects[0]),
  );
  const squares = (cents: readonly number[]) => cents.reduce((sum, each) => sum + each * each, 0);
  const other = (i: number) => {
    const { effects, costs, taken } = groups[i] as Group;
    const to = taken === 0 ? 1 : 0;
    return { effect: difference(effects[to], effects[taken]), cost: costs[to] - costs[taken] };
  };
  /** Takes the other step of these where that is better. */
  const flip = (some: readonly number[]): boolean => {
    const changes = some.map(other);
    const there = addedUp(
      off,
      changes.map(({ effect }) => effect),
    );
    const gain = squares(off) - squares(there) - changes.reduce((sum, { cost }) => sum + cost, 0);
    if (!(gain > LEAST_GAIN)) return false;
    off = there;
    for (const i of some) {
      const group = groups[i] as Group;
      group.taken = group.taken === 0 ? 1 : 0;
    }
    return true;
  };
  const alone = groups.map((_, i) => [i]);
  const pairs = groups.flatMap((_, i) => groups.slice(i + 1).map((_, j) => [i, i + 1 + j]));
  for (let pass = 0; pass < MOST_PASSES; pass++) {
    const flipped = [...alone, ...pairs].filter(flip);
    if (flipped.length === 0) break;
  }
  const byGroup = new Map(groups.map((group) => [group.name, group.values[group.taken]]));
  return {
    values: numbers.map(({ group, value }) => byGroup.get(group) ?? value),
    cents: Math.max(0, ...off.map(Math.abs)),
  };
}

interface Group {
  readonly name: string;
  /** The nearer step and the farther one. */
  readonly values: readonly [number, number];
  /** What each does to the notes, cents. */
  readonly effects: readonly [readonly number[], readonly number[]];
  /** Cost of the distance from the exact value itself, cents squared. */
  readonly costs: readonly [number, number];
  taken: 0 | 1;
}

function groupOf(members: readonly Scaled[]): Group {
  const [{ value, step, group: name }] = members as readonly [Scaled];
  const near = onStep(value, step);
  const far = onStep(near + (near > value ? -step.size : step.size), step);
  const slopes = addedUp(
    [],
    members.map((each) => each.slopes),
  );
  const effect = (drawn: number) => slopes.map((slope) => slope * (drawn - value));
  const cost = (drawn: number) => (UNHEARD * ((drawn - value) / step.size)) ** 2;
  return { name, values: [near, far], effects: [effect(near), effect(far)], costs: [cost(near), cost(far)], taken: 0 };
}

function addedUp(start: readonly number[], rows: readonly (readonly number[])[]): readonly number[] {
  const sum = [...start];
  for (const row of rows) for (const [i, each] of row.entries()) sum[i] = (sum[i] ?? 0) + each;
  return sum;
}

function difference(a: readonly number[], b: readonly number[]): readonly number[] {
  return a.map((each, i) => each - (b[i] ?? 0));
}
