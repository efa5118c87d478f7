/** Resonances of one fingering from the bottom up, counted into registers, and the alternative where the count is in doubt. */
import type { Sounding } from "./answer.js";
import { isCloseCall, isResonance, strongest } from "./excitation.js";

/** Events of the reactance at zero or away from it, from the bottom up. */
type Event =
  | { readonly what: "resonance"; readonly sounding: Sounding; readonly counts: boolean; readonly isInDoubt: boolean }
  /** Between two resonances; whether they belong to two registers. */
  | { readonly what: "gap"; readonly parts: boolean; readonly isInDoubt: boolean };

export class Registers {
  private readonly events: Event[] = [];
  /** No more comes. */
  isDone = false;

  rises(sounding: Sounding): void {
    const { resistance } = sounding;
    const isInDoubt = isCloseCall(resistance);
    const counts = isResonance(resistance);
    if (counts || isInDoubt) this.events.push({ what: "resonance", sounding, counts, isInDoubt });
  }

  /** @param parts whether what comes next is of another register */
  gap(parts: boolean, isInDoubt: boolean): void {
    const last = this.events.at(-1);
    // Far from zero it is reported repeatedly.
    const isKnown = last?.what === "gap" && last.parts && !last.isInDoubt;
    if (!isKnown) this.events.push({ what: "gap", parts, isInDoubt });
  }

  /**
   * The register of that number; "later" where more must be known, undefined where there is none. Where the count is in doubt, the
   * strongest resonance by the other count is a rival.
   */
  sounding(register: number): Sounding | "later" | undefined {
    const { groups, ends } = this.counted();
    const own = groups[register - 1];
    if (own === undefined) return this.isDone ? undefined : "later";
    const first = strongest(own);
    const rivals = own.filter((other) => other !== first);
    for (let n = 0; n <= (ends[register - 1] as number); n++) {
      if (this.events[n]?.isInDoubt !== true) continue;
      const other = this.counted(n).groups[register - 1];
      if (other === undefined && !this.isDone) return "later";
      if (other !== undefined && strongest(other) !== first) rivals.push(strongest(other));
    }
    return rivals.length === 0 ? first : { ...first, rival: strongest(rivals) };
  }

  /** Resonances by register, and the event that ends each. @param flipped the event that is counted the other way */
  private counted(flipped?: number): { readonly groups: readonly Sounding[][]; readonly ends: readonly number[] } {
    const groups: Sounding[][] = [];
    const ends: number[] = [];
    let open: Sounding[] = [];
    const close = (n: number) => {
      if (open.length === 0) return;
      groups.push(open);
      ends.push(n);
      open = [];
    };
    this.events.forEach((event, n) => {
      const isFlipped = n === flipped;
      if (event.what === "gap") {
        if (event.parts !== isFlipped) close(n);
      } else if (event.counts !== isFlipped) open.push(event.sounding);
    });
    if (this.isDone) close(this.events.length - 1);
    return { groups, ends };
  }
}
