/** Draws that a seed repeats. */
import fc from "fast-check";

/** Whole numbers below this are drawn. */
const SPAN = 2 ** 31;

export class Random {
  private readonly numbers: Iterator<number>;

  constructor(seed: number) {
    const stream = fc.infiniteStream(fc.noBias(fc.nat({ max: SPAN - 1 })), { noHistory: true });
    const [numbers] = fc.sample(stream, { seed: seed | 0, numRuns: 1 });
    if (numbers === undefined) throw new Error("no numbers to draw from");
    this.numbers = numbers;
  }

  /** From 0 up to but without 1. */
  share(): number {
    return this.numbers.next().value / SPAN;
  }

  /** A whole number from `least` to `greatest`, both included. */
  whole(least: number, greatest: number): number {
    return least + Math.floor(this.share() * (greatest - least + 1));
  }

  between(least: number, greatest: number): number {
    return least + this.share() * (greatest - least);
  }

  chance(probability: number): boolean {
    return this.share() < probability;
  }

  pick<T>(items: readonly T[]): T {
    if (items.length === 0) throw new Error("nothing to pick from");
    return items[this.whole(0, items.length - 1)] as T;
  }

  /** Each of the items by the same chance, in their order. */
  some<T>(items: readonly T[], probability: number): readonly T[] {
    return items.filter(() => this.chance(probability));
  }
}
