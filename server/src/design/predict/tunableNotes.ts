/** The fingerings that take part where dimensions are solved. */
import type { Analysis } from "./analysis.js";
import type { IndexedQuery } from "./body.js";

export interface TunableNote {
  readonly query: IndexedQuery;
  /** Hz. */
  readonly target: number;
}

/** Those with covers, a resonance now (one that has no such register cannot be tuned) and a target, Hz, by fingering. */
export function tunableNotesOf(
  { fingerings }: Analysis,
  targets: readonly (number | undefined)[],
): readonly TunableNote[] {
  return fingerings.flatMap(({ fingering: { covers, register }, predictedHz }, index) => {
    const target = targets[index];
    return covers === undefined || target === undefined || predictedHz === undefined
      ? []
      : [{ query: { index, covers, register }, target }];
  });
}
