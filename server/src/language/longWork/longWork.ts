/** Who does the long work: this thread, where nothing else waits for it, or one beside it. */
import { type Job, type Outcome, perform } from "./job.js";

export interface LongWork {
  /** Rejects with CannotRekey, and with Cancelled soon after `shouldStop` has come to say so. */
  run(job: Job, shouldStop: () => boolean): Promise<Outcome>;
}

export const inThisThread: LongWork = {
  run: async (job, shouldStop) => perform(job, shouldStop),
};
