/**
 * Long work in short steps: the caller decides what is done between two of them. A step is an impedance or two, a fraction of a
 * millisecond with a dozen holes and some two with a hundred.
 */
export type Steps<T> = Generator<undefined, T, undefined>;

/** Does all steps at once. */
export function drained<T>(steps: Steps<T>): T {
  for (;;) {
    const { done, value } = steps.next();
    if (done) return value;
  }
}
