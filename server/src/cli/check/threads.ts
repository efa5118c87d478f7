/** Many files on several threads: each is given one after the other. A thread that dies costs the file it was at, and is replaced. */
import { Worker } from "node:worker_threads";
import { isNews } from "../../instrument/contained.js";
import { spokenTranslation } from "../../words/translation.js";
import { tellFault } from "../failure.js";
import type { CheckOptions, Outcome } from "./checkFile.js";
import { CHECK_THREAD, type CheckThreadData, type Done } from "./thread.js";

/** Resolves early once the signal says so. @param program the bundle that is started as a thread: one that begins with `checksAsThread` */
export async function checkOnThreads(
  files: readonly string[],
  { program, settings, withFixes }: CheckOptions & { readonly program: string },
  threads: number,
  onDone: (file: string, outcome: Outcome) => void,
  signal?: AbortSignal,
): Promise<readonly Outcome[]> {
  const outcomes: Outcome[] = [];
  const workerData: CheckThreadData = {
    role: CHECK_THREAD,
    options: { settings, withFixes },
    translation: spokenTranslation(),
  };
  let next = 0;

  /** One thread at work until no file is left; what it lives for is one promise. */
  const work = () =>
    new Promise<void>((resolve) => {
      const worker = new Worker(program, { workerData });
      let at: number | undefined;
      const give = () => {
        at = next < files.length && !signal?.aborted ? next++ : undefined;
        if (at === undefined) void worker.terminate();
        else worker.postMessage(files[at]);
      };
      const take = (outcome: Outcome) => {
        if (at === undefined) return;
        outcomes[at] = outcome;
        onDone(files[at] ?? "", outcome);
      };
      const stop = () => void worker.terminate();
      signal?.addEventListener("abort", stop);
      const died = (fault: unknown) => {
        take({ text: "", findings: [], incomplete: true, fault });
        at = undefined;
      };
      worker.on("message", ({ outcome, faults }: Done) => {
        for (const { fault, name } of faults) if (isNews(fault)) tellFault(fault, name);
        take(outcome);
        give();
      });
      worker.on("error", died);
      worker.on("exit", () => {
        signal?.removeEventListener("abort", stop);
        if (at !== undefined && !signal?.aborted) died(new Error("the thread that checked it ended"));
        resolve(next < files.length && !signal?.aborted ? work() : undefined);
      });
      give();
    });

  await Promise.all(Array.from({ length: Math.min(threads, files.length) }, work));
  return outcomes;
}
