/** A solver that is not written in steps, over values that are worked out step by step. */
import type { Steps } from "../../acoustics/steps.js";
import { t } from "../../words/translation.js";

/** Carries what the solver asked for out of it. */
class NotKnown extends Error {
  constructor(readonly at: readonly number[]) {
    super(t("a value is not known yet"));
  }
}

/**
 * The result of `solve`. Where it asks for a value that is not known yet, that is worked out and the solver begins again: it must do the same
 * with the same values, and cost little beside them.
 */
export function* stepwise<V, R>(
  solve: (valueAt: (x: readonly number[]) => V) => R,
  steps: (x: readonly number[]) => Steps<V>,
): Steps<R> {
  const known = new Map<string, { readonly value: V }>();
  const valueAt = (x: readonly number[]) => {
    const found = known.get(x.join());
    if (found === undefined) throw new NotKnown(x);
    return found.value;
  };
  for (;;) {
    try {
      return solve(valueAt);
    } catch (error) {
      if (!(error instanceof NotKnown)) throw error;
      known.set(error.at.join(), { value: yield* steps(error.at) });
    }
  }
}
