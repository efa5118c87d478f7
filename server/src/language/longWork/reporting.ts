/** The worker's side: one task after the other, each answered with one report. */
import { Cancelled } from "../../acoustics/cancelled.js";
import { CannotRekey } from "../../design/rekey/rekeyResult.js";
import { speak } from "../../words/translation.js";
import type { MakersFiles } from "./fromFiles.js";
import { perform } from "./job.js";
import type { Report, Task } from "./messages.js";

/** What takes the tasks as they come. */
export function reporting(files: MakersFiles, post: (report: Report) => void): (task: Task) => void {
  let before = Promise.resolve();
  return (task) => {
    before = before.then(async () => post(await reportOn(task, files)));
  };
}

async function reportOn({ id, job, stop, translation }: Task, files: MakersFiles): Promise<Report> {
  speak(translation);
  const shouldStop = () => stop !== undefined && Atomics.load(stop, 0) !== 0;
  try {
    if (shouldStop()) return { id, kind: "cancelled" };
    return { id, kind: "done", outcome: await perform(job, shouldStop, files) };
  } catch (error) {
    if (error instanceof Cancelled) return { id, kind: "cancelled" };
    if (error instanceof CannotRekey) return { id, kind: "refused", reason: error.message };
    return { id, kind: "failed", reason: error instanceof Error ? (error.stack ?? error.message) : String(error) };
  }
}
