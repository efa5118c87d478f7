/** Long work on a thread of its own, of Node or of a browser, so that typing is answered while a refit goes on and a cancelled one ends at once. */
import { Cancelled } from "../../acoustics/cancelled.js";
import { CannotRekey } from "../../design/rekey/rekeyResult.js";
import { spokenTranslation } from "../../words/translation.js";
import { later } from "../turns.js";
import type { Job, OutcomeOf, Work } from "./job.js";
import type { LongWork } from "./longWork.js";
import type { Report, Task } from "./messages.js";

/** How often to check whether the work is still wanted, ms: less than a maker notices. */
const ASKING_EVERY = 20;
/** The thread looks at its flag every few milliseconds; one that has not stopped after this, ms, hangs and is replaced. */
const PATIENCE = 2000;

/** How a platform starts threads. */
export interface Threads {
  /** Whether a flag in shared memory reaches a thread at work; else it is ended to be stopped. */
  readonly sharesMemory: boolean;
  /** @param onEnd is told why, where the thread ends by itself */
  start(onReport: (report: Report) => void, onEnd: (error: Error) => void): Thread;
}

export interface Thread {
  post(task: Task): void;
  /** Whether somebody waits for it. */
  hold(isBusy: boolean): void;
  end(): void;
}

interface Waiting {
  readonly task: Task;
  readonly resolve: (outcome: OutcomeOf<Work>) => void;
  readonly reject: (error: Error) => void;
}

export class WorkThread implements LongWork {
  private worker: Thread | undefined;
  /** Those that somebody waits for, by their number. */
  private readonly waiting = new Map<number, Waiting>();
  /** Numbers of the tasks the thread has not reported on, in its order: it works at the first. */
  private given: number[] = [];
  private last = 0;

  /** The thread starts with the first work. */
  constructor(private readonly threads: Threads) {}

  async run<W extends Work>(job: Job<W>, shouldStop: () => boolean): Promise<OutcomeOf<W>> {
    const stop = this.threads.sharesMemory ? new Int32Array(new SharedArrayBuffer(4)) : undefined;
    const task: Task = { id: ++this.last, job, stop, translation: spokenTranslation() };
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
      if (this.waiting.size === 0) this.worker?.hold(false);
    }
  }

  private give(task: Task): void {
    const worker = this.worker ?? this.start();
    worker.hold(true);
    this.given.push(task.id);
    worker.post(task);
  }

  private start(): Thread {
    const worker: Thread = this.threads.start(
      (report) => this.take(report),
      (error) => this.fail(worker, error),
    );
    this.worker = worker;
    return worker;
  }

  private take(report: Report): void {
    this.given = this.given.filter((id) => id !== report.id);
    const [next] = this.given;
    // Cancelled while it waited its turn, and there is no flag to signal it by.
    if (next !== undefined && !this.threads.sharesMemory && !this.waiting.has(next)) this.replaceIfAt(next);
    const waiting = this.waiting.get(report.id);
    if (waiting === undefined) return; // given up meanwhile
    if (report.kind === "done") waiting.resolve(report.outcome);
    else if (report.kind === "cancelled") waiting.reject(new Cancelled());
    else if (report.kind === "refused") waiting.reject(new CannotRekey(report.reason));
    else waiting.reject(new Error(report.reason));
  }

  /** The caller is told at once; the thread by its flag, or by terminating it. */
  private giveUp({ id, stop }: Task): void {
    const waiting = this.waiting.get(id);
    this.waiting.delete(id);
    waiting?.reject(new Cancelled());
    if (stop === undefined) this.replaceIfAt(id);
    else {
      Atomics.store(stop, 0, 1);
      later(() => this.replaceIfAt(id), PATIENCE);
    }
  }

  /** A new thread in place of one that hangs at an unwanted task; waiting tasks are sent to it again. */
  private replaceIfAt(id: number): void {
    const { worker } = this;
    if (worker === undefined || this.given[0] !== id) return;
    this.worker = undefined;
    this.given = [];
    worker.end();
    for (const { task } of this.waiting.values()) this.give(task);
  }

  /** The tasks of a crashed thread fail; the next one gets a new thread. */
  private fail(worker: Thread, error: Error): void {
    if (this.worker !== worker) return;
    this.worker = undefined;
    this.given = [];
    for (const { reject } of this.waiting.values()) reject(error);
  }
}
