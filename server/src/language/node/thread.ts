/** Threads of Node for long work: both sides. */
import { isMainThread, parentPort, Worker } from "node:worker_threads";
import { readChunks } from "../../files/readChunks.js";
import { readBytes } from "../../files/readText.js";
import { stackOf, tellFaultsTo } from "../../instrument/contained.js";
import type { MakersFiles } from "../longWork/fromFiles.js";
import type { Task } from "../longWork/messages.js";
import { reporting } from "../longWork/reporting.js";
import { WorkThread } from "../longWork/workThread.js";

export const FILES_ON_DISK: MakersFiles = { read: readBytes, chunks: readChunks };

/** True where the program runs as such a thread; it then works from here on and must do nothing else. */
export function worksAsThread(): boolean {
  if (isMainThread || parentPort === null) return false;
  const port = parentPort;
  tellFaultsTo((error, name) => process.stderr.write(`${name} failed: ${stackOf(error)}\n`));
  const take = reporting(FILES_ON_DISK, (report) => port.postMessage(report));
  port.on("message", (task: Task) => take(task));
  return true;
}

/** @param program the bundle to start as a thread: one that begins with `worksAsThread`. It starts with the first work. */
export function workThread(program: string): WorkThread {
  return new WorkThread({
    sharesMemory: true,
    start: (onReport, onEnd) => {
      const worker = new Worker(program);
      worker.on("message", onReport);
      worker.on("error", onEnd);
      worker.on("exit", () => onEnd(new Error("the thread for long work ended")));
      return {
        post: (task) => worker.postMessage(task),
        // An idle thread keeps no process alive.
        hold: (isBusy) => (isBusy ? worker.ref() : worker.unref()),
        end: () => void worker.terminate(),
      };
    },
  });
}
