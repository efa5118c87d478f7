/** The side of the thread that works: one task after the other, each answered with one report. */
import { isMainThread, parentPort } from "node:worker_threads";
import { Cancelled } from "../../acoustics/cancelled.js";
import { CannotRekey } from "../../design/rekey/rekeyResult.js";
import { perform } from "./job.js";
import type { Report, Task } from "./messages.js";

/** True where the program runs as such a thread; it then works from here on and must do nothing else. */
export function worksAsThread(): boolean {
  if (isMainThread || parentPort === null) return false;
  const port = parentPort;
  let before = Promise.resolve();
  port.on("message", (task: Task) => {
    before = before.then(async () => port.postMessage(await reportOn(task)));
  });
  return true;
}

async function reportOn({ id, job, stop }: Task): Promise<Report> {
  const shouldStop = () => Atomics.load(stop, 0) !== 0;
  try {
    if (shouldStop()) return { id, kind: "cancelled" };
    return { id, kind: "done", outcome: await perform(job, shouldStop) };
  } catch (error) {
    if (error instanceof Cancelled) return { id, kind: "cancelled" };
    if (error instanceof CannotRekey) return { id, kind: "refused", reason: error.message };
    return { id, kind: "failed", reason: error instanceof Error ? (error.stack ?? error.message) : String(error) };
  }
}
