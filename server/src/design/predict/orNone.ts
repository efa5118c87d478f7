import type { Steps } from "../../acoustics/steps.js";

/** The result of `work`; undefined where the physics refuses its numbers: dimensions that make no instrument. */
export function orNone<T>(work: () => T): T | undefined {
  try {
    return work();
  } catch (error) {
    if (error instanceof RangeError) return undefined;
    throw error;
  }
}

/** The same of work done step by step. */
export function* orNoneSteps<T>(work: () => Steps<T>): Steps<T | undefined> {
  try {
    return yield* work();
  } catch (error) {
    if (error instanceof RangeError) return undefined;
    throw error;
  }
}
