/** Work that several requests wait for: whoever has a turn continues it, and one that gives up leaves it to the others. */
import { drained, type Steps } from "../acoustics/steps.js";

export class SharedSteps<K, V> {
  private readonly values = new Map<K, V>();
  private readonly begun = new Map<K, Steps<V>>();

  /** What `make` gives for `key`, worked out once. */
  *of(key: K, make: () => Steps<V>): Steps<V> {
    for (;;) {
      if (this.values.has(key)) return this.values.get(key) as V;
      const steps = this.begun.get(key) ?? make();
      this.begun.set(key, steps);
      let next: IteratorResult<undefined, V>;
      try {
        next = steps.next();
      } catch (error) {
        this.begun.delete(key);
        throw error;
      }
      if (next.done) {
        this.begun.delete(key);
        this.values.set(key, next.value);
      } else yield undefined;
    }
  }

  /** The same at once. */
  at(key: K, make: () => Steps<V>): V {
    return drained(this.of(key, make));
  }
}
