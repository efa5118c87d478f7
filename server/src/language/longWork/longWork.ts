/** Which thread does the long work: this one, where nothing else waits for it, or a separate one. */
import { type MakersFiles, ONLY_GIVEN } from "./fromFiles.js";
import { type Job, type OutcomeOf, perform, type Work } from "./job.js";

export interface LongWork {
  /** Rejects with CannotRekey, and with Cancelled soon after `shouldStop` has come to say so. */
  run<W extends Work>(job: Job<W>, shouldStop: () => boolean): Promise<OutcomeOf<W>>;
}

export const inThisThread: LongWork = inThisThreadWith(ONLY_GIVEN);

export function inThisThreadWith(files: MakersFiles): LongWork {
  return { run: (job, shouldStop) => perform(job, shouldStop, files) };
}
