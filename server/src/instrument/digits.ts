/** How many digits a number gets in a sentence: as many as are meaningful, and more only where two would read the same. */

/** Decimals that always suffice: the rules ignore smaller differences. */
const MOST_DECIMALS = 9;
const SLACK = 1e-9;

export interface Shown {
  readonly value: number;
  /** Decimals to which it is meaningful; trailing zeros are left out. */
  readonly decimals: number;
}

type Texts<T> = { readonly [K in keyof T]: string };

/**
 * Numbers that stand in one sentence. Where rounding would make two of them read the same, or swap larger and smaller, all get one
 * more decimal until it does not: `41.04 mm apart; the hand has 41 mm`, never `41 mm apart; the hand has 41 mm`.
 */
export function besideEachOther<const T extends readonly Shown[]>(numbers: T): Texts<T> {
  const rounded = (more: number) => numbers.map(({ value, decimals }) => Number(value.toFixed(decimals + more)));
  let more = 0;
  while (more < MOST_DECIMALS && !keepsOrder(numbers, rounded(more))) more++;
  return rounded(more).map(String) as Texts<T>;
}

function keepsOrder(numbers: readonly Shown[], rounded: readonly number[]): boolean {
  return numbers.every(({ value }, i) =>
    numbers.every((other, j) => value <= other.value + SLACK || (rounded[i] ?? 0) > (rounded[j] ?? 0)),
  );
}

/** Rounded so that what is asked to be at most `value` still is once written. */
export function roundedDown(value: number, decimals: number): number {
  const steps = 10 ** decimals;
  return Math.floor(value * steps + SLACK) / steps;
}

/** Rounded so that what is asked to be at least `value` still is once written. */
export function roundedUp(value: number, decimals: number): number {
  const steps = 10 ** decimals;
  return Math.ceil(value * steps - SLACK) / steps;
}
