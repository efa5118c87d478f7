/** Long work on a thread of its own, so that typing is answered while a refit goes on and a cancelled one ends at once. */
import { Worker } from "node:worker_threads";
import { Cancelled } from "../../acoustics/cancelled.js";
import { CannotRekey } from "../../design/rekey/rekeyResult.js";
import type { Job, OutcomeOf, Work } from "./job.js";
import type { LongWork } from "./longWork.js";
import type { Report, Task } from "./messages.js";

/** How often it is asked whether the work is still wanted, ms: less than a maker notices. */
const ASKING_EVERY = 20;
/** The thread looks at its flag every few milliseconds; one that has not stopped after this, ms, hangs and is replaced. */
const PATIENCE = 2000;

interface Waiting {
  readonly task: Task;
  readonly resolve: (outcome: OutcomeOf<Work>) => void;
  readonly reject: (error: Error) => void;
}

export class WorkThread implements LongWork {
  private worker: Worker | undefined;
  /** Those that somebody waits for, by their number. */
  private readonly waiting = new Map<number, Waiting>();
  /** Numbers of the tasks the thread has not reported on, in its order: it works at the first. */
  private given: number[] = [];
  private last = 0;

  /** `program` is the bundle to start as a thread: one that begins with `worksAsThread`. It starts with the first work. */
  constructor(private readonly program: string) {}

  async run<W extends Work>(job: Job<W>, shouldStop: () => boolean): Promise<OutcomeOf<W>> {
    const task: Task = { id: ++this.last, job, stop: new Int32Array(new SharedArrayBuffer(4)) };
    const asking = setInterval(() => {
      if (shouldStop()) this.giveUp(task);
    }, ASKING_EVERY);
    try {
      const outcome = await new Promise<OutcomeOf<Work>>((resolve, reject) => {
        this.waiting.set(task.id, { task, resolve, reject });
        this.give(task);
      });
      return outcome as OutcomeOf<W>; // the thread does what the job says
    } finally {
      clearInterval(asking);
      this.waiting.delete(task.id);
      if (this.waiting.size === 0) this.worker?.unref(); // an idle thread keeps no process alive
    }
  }

  private give(task: Task): void {
    const worker = this.worker ?? this.start();
    worker.ref();
    this.given.push(task.id);
    worker.postMessage(task);
  }

  private start(): Worker {
    const worker = new Worker(this.program);
    worker.on("message", (report: Report) => this.take(report));
    worker.on("error", (error) => this.fail(worker, error));
    worker.on("exit", () => this.fail(worker, new Error("the thread for long work ended")));
    this.worker = worker;
    return worker;
  }

  private take(report: Report): void {
    this.given = this.given.filter((id) => id !== report.id);
    const waiting = this.waiting.get(report.id);
    if (waiting === undefined) return; // given up meanwhile
    if (report.kind === "done") waiting.resolve(report.outcome);
    else if (report.kind === "cancelled") waiting.reject(new Cancelled());
    else if (report.kind === "refused") waiting.reject(new CannotRekey(report.reason));
    else waiting.reject(new Error(report.reason));
  }

  /** Who asked is told at once; the thread by its flag. */
  private giveUp({ id, stop }: Task): void {
    Atomics.store(stop, 0, 1);
    this.waiting.get(id)?.reject(new Cancelled());
    setTimeout(() => this.replaceIfAt(id), PATIENCE).unref();
  }

  /** A new thread in place of one that hangs at a task nobody wants; what waits is given to it anew. */
  private replaceIfAt(id: number): void {
    const { worker } = this;
    if (worker === undefined || this.given[0] !== id) return;
    this.worker = undefined;
    this.given = [];
    void worker.terminate();
    for (const { task } of this.waiting.values()) this.give(task);
  }

  /** The tasks of a thread that broke down fail; the next one gets a new thread. */
  private fail(worker: Worker, error: Error): void {
    if (this.worker !== worker) return;
    this.worker = undefined;
    this.given = [];
    for (const { reject } of this.waiting.values()) reject(error);
  }
}
