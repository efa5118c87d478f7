/** The messages between the two threads. */
import type { Translation } from "../../words/translation.js";
import type { Job, OutcomeOf, Work } from "./job.js";

export interface Task {
  readonly id: number;
  readonly job: Job<Work>;
  /** Shared between the threads, where they can: its one number is not 0 once the work is no longer wanted. */
  readonly stop: Int32Array | undefined;
  /** Messages during the work. */
  readonly translation: Translation | undefined;
}

export type Report = { readonly id: number } & (
  | { readonly kind: "done"; readonly outcome: OutcomeOf<Work> }
  | { readonly kind: "cancelled" }
  /** It cannot be done, and why, in the maker's words. */
  | { readonly kind: "refused"; readonly reason: string }
  /** A fault of ours. */
  | { readonly kind: "failed"; readonly reason: string }
);
