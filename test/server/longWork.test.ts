/** Long work beside the typing: it holds nothing up, ends when it is no longer wanted, and shows that it goes on. */
import { mkdtempSync, rmSync, writeFileSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { afterAll, describe, expect, it, vi } from "vitest";
import { CancellationTokenSource, type CodeAction } from "vscode-languageserver/node";
import { Cancelled } from "../../server/src/acoustics/cancelled.js";
import { CannotRekey } from "../../server/src/design/rekey/rekeyResult.js";
import { DEFAULT_SETTINGS } from "../../server/src/design/settings.js";
import type { Job, Outcome } from "../../server/src/language/longWork/job.js";
import type { LongWork } from "../../server/src/language/longWork/longWork.js";
import { type Threads, WorkThread } from "../../server/src/language/longWork/workThread.js";
import { workThread } from "../../server/src/language/node/thread.js";
import { type Client, client, PULLING, URI, until } from "../support/client.js";
import { WHISTLE } from "../support/designs.js";
import { titled } from "../support/language.js";

const PROGRAM = join(import.meta.dirname, "../../dist/cli.cjs");
const folder = mkdtempSync(join(tmpdir(), "borewright-threads-"));
afterAll(() => rmSync(folder, { recursive: true }));

/** A program to stand in for ours: what it does with each `task`, told by the job's text. */
function program(name: string, body: string): string {
  const file = join(folder, `${name}.cjs`);
  writeFileSync(
    file,
    `const { parentPort: port } = require("node:worker_threads");
const done = ({ id, job }) => port.postMessage({ id, kind: "done", outcome: { edits: [], from: "G4", to: "A4", message: job.text } });
port.on("message", (task) => { ${body} });`,
  );
  return file;
}

const job = (text: string, to = "A4", by: "refit" | "redraw" = "refit"): Job => ({
  text,
  syntax: "yaml",
  documentIndex: 0,
  settings: DEFAULT_SETTINGS,
  work: { do: "rekey", to, by },
});
const never = () => false;
/** Says so from the third time it is asked. */
const afterAWhile = () => {
  let asked = 0;
  return () => ++asked > 3;
};

// At once: one of them waits for two seconds.
describe.concurrent("the thread", () => {
  it("does what this thread would", async () => {
    const thread = workThread(PROGRAM);
    const { message, edits } = await thread.run(job(WHISTLE), never);
    expect(message).toMatch(/^G4 to A4: \d+ dimensions changed, bore 39\d(\.\d)? mm → 3[45]\d(\.\d)? mm; worst note/);
    expect(edits.length).toBeGreaterThan(2);
  });

  it("says in words what cannot be done, and goes on", async () => {
    const thread = workThread(PROGRAM);
    await expect(thread.run(job("borewright: 1\n"), never)).rejects.toThrow(CannotRekey);
    await expect(thread.run(job(WHISTLE, "nonsense"), never)).rejects.toThrow("nonsense is not a note");
    expect((await thread.run(job(WHISTLE, "A4", "redraw"), never)).to).toBe("A4");
  });

  it("is stopped in the middle of its work, and does the next", async () => {
    // It works until it is told to stop: only a flag it can see while it works ends this.
    const thread = workThread(
      program("busy", `if (task.job.text === "long") while (Atomics.load(task.stop, 0) === 0); done(task);`),
    );
    await expect(thread.run(job("long"), afterAWhile())).rejects.toThrow(Cancelled);
    expect((await thread.run(job("short"), never)).message).toBe("short");
  });

  it("that hangs is replaced, and the work queued behind it is done", async () => {
    const thread = workThread(
      program(
        "hanging",
        `if (task.job.text === "hang") Atomics.wait(new Int32Array(new SharedArrayBuffer(4)), 0, 0); done(task);`,
      ),
    );
    const hanging = expect(thread.run(job("hang"), afterAWhile())).rejects.toThrow(Cancelled);
    expect((await thread.run(job("behind"), never)).message).toBe("behind");
    await hanging;
  });

  it("that crashes fails its work with a reason, and the next is done", async () => {
    const thread = workThread(program("broken", `if (task.job.text === "break") throw new Error("ow"); done(task);`));
    await expect(thread.run(job("break"), never)).rejects.toThrow("ow");
    expect((await thread.run(job("after"), never)).message).toBe("after");
  });
});

/** A thread that shares memory and stops when its flag says so; it does "short" work at once. */
function obeying() {
  let started = 0;
  const threads: Threads = {
    sharesMemory: true,
    start: (onReport) => {
      started++;
      return {
        post: ({ id, job: { text }, stop }) => {
          const timer = setInterval(() => {
            const isStopped = Atomics.load(stop as Int32Array, 0) === 1;
            if (text !== "short" && !isStopped) return;
            clearInterval(timer);
            onReport(
              isStopped ? { id, kind: "cancelled" } : { id, kind: "done", outcome: { message: text } as Outcome },
            );
          }, 1);
        },
        hold: () => undefined,
        end: () => undefined,
      };
    },
  };
  return { threads, started: () => started };
}

it("a thread that stopped when told to is kept, however long ago that was", async () => {
  vi.useFakeTimers();
  try {
    const { threads, started } = obeying();
    const thread = new WorkThread(threads);
    const cancelled = expect(thread.run(job("long"), () => true)).rejects.toThrow(Cancelled);
    await vi.advanceTimersByTimeAsync(100);
    await cancelled;
    const next = thread.run(job("longer"), never);
    await vi.advanceTimersByTimeAsync(10_000);
    const behind = thread.run(job("short"), never);
    await vi.advanceTimersByTimeAsync(100);
    expect((await behind).message).toBe("short");
    expect(started()).toBe(1);
    void next;
  } finally {
    vi.useRealTimers();
  }
});

/** Threads that share no memory, as a browser's: each does a task in its turn, but for "hang". */
function withoutMemory() {
  const ended: number[] = [];
  let started = 0;
  const threads: Threads = {
    sharesMemory: false,
    start: (onReport) => {
      const number = ++started;
      let isStuck = false;
      return {
        post: ({ id, job: { text } }) => {
          isStuck ||= text === "hang";
          const outcome = { message: text } as Outcome;
          if (!isStuck) setTimeout(() => onReport({ id, kind: "done", outcome }));
        },
        hold: () => undefined,
        end: () => void ended.push(number),
      };
    },
  };
  return { threads, ended };
}

describe("a thread that shares no memory", () => {
  it("is terminated to cancel its work, and the next thread does what was queued", async () => {
    const { threads, ended } = withoutMemory();
    const thread = new WorkThread(threads);
    const hanging = expect(thread.run(job("hang"), afterAWhile())).rejects.toThrow(Cancelled);
    expect((await thread.run(job("behind"), never)).message).toBe("behind");
    await hanging;
    expect(ended).toEqual([1]);
  });

  it("is terminated when it reaches work that was cancelled in the queue", async () => {
    const { threads, ended } = withoutMemory();
    const thread = new WorkThread(threads);
    const first = thread.run(job("first"), never);
    await expect(thread.run(job("hang"), () => true)).rejects.toThrow(Cancelled);
    expect((await first).message).toBe("first");
    expect((await thread.run(job("after"), never)).message).toBe("after");
    expect(ended).toEqual([1]);
  });
});

async function refitAction(self: Client): Promise<CodeAction> {
  self.open(WHISTLE);
  const line = WHISTLE.split("\n").findIndex((each) => each.startsWith("key:"));
  const range = { start: { line, character: 5 }, end: { line, character: 5 } };
  const asked = { textDocument: { uri: URI }, range, context: { diagnostics: [] } };
  return titled(await self.connection.sendRequest<CodeAction[]>("textDocument/codeAction", asked), /^Refit to A4/);
}

/** Work that goes on until it is stopped. */
const endless = () => {
  const state = { begun: 0, stopped: 0 };
  const longWork: LongWork = {
    run: (_, shouldStop) =>
      new Promise((_, reject) => {
        state.begun++;
        const timer = setInterval(() => {
          if (!shouldStop()) return;
          state.stopped++;
          clearInterval(timer);
          reject(new Cancelled());
        }, 5);
      }),
  };
  return { state, longWork };
};

describe("the server", () => {
  it("answers a hover while a refit goes on", async () => {
    const self = await client(PULLING, { longWork: workThread(PROGRAM) });
    const action = await refitAction(self);
    const order: string[] = [];
    const refit = self.connection.sendRequest<CodeAction>("codeAction/resolve", action).then((resolved) => {
      order.push("refit");
      return resolved;
    });
    const position = { line: WHISTLE.split("\n").findIndex((line) => line.includes("210.3")), character: 20 };
    await self.connection.sendRequest("textDocument/hover", { textDocument: { uri: URI }, position });
    order.push("hover");
    expect((await refit).edit).toBeDefined();
    expect(order).toEqual(["hover", "refit"]);
  });

  it("stops it when the request is cancelled", async () => {
    const { state, longWork } = endless();
    const self = await client(PULLING, { longWork });
    const action = await refitAction(self);
    const source = new CancellationTokenSource();
    const refit = self.connection.sendRequest("codeAction/resolve", action, source.token);
    await until(() => state.begun === 1);
    source.cancel();
    await expect(refit).rejects.toMatchObject({ code: -32800 }); // RequestCancelled
    expect(state.stopped).toBe(1);
  });

  it("stops it when the text has changed", async () => {
    const { state, longWork } = endless();
    const self = await client(PULLING, { longWork });
    const refit = self.connection.sendRequest("codeAction/resolve", await refitAction(self));
    await until(() => state.begun === 1);
    self.change(`${WHISTLE}\n`, 2);
    await expect(refit).rejects.toMatchObject({ code: -32801 }); // ContentModified
    expect(state.stopped).toBe(1);
  });

  it("shows it where the client can, until it ends, and stops it when told to there", async () => {
    const { state, longWork } = endless();
    const self = await client({ ...PULLING, window: { workDoneProgress: true } }, { longWork });
    const shown: { token: string | number; value: { kind: string; title?: string; cancellable?: boolean } }[] = [];
    self.connection.onRequest("window/workDoneProgress/create", () => null);
    self.connection.onNotification("$/progress", (params) => void shown.push(params as (typeof shown)[number]));
    const refit = self.connection.sendRequest("codeAction/resolve", await refitAction(self));
    const ended = expect(refit).rejects.toMatchObject({ code: -32800 }); // RequestCancelled
    await until(() => shown.length === 1);
    expect(shown[0]?.value).toMatchObject({ kind: "begin", cancellable: true });
    expect(shown[0]?.value.title).toMatch(/^Refit to A4/);
    await self.connection.sendNotification("window/workDoneProgress/cancel", { token: shown[0]?.token });
    await ended;
    expect(state.stopped).toBe(1);
    await until(() => shown.length === 2);
    expect(shown[1]?.value.kind).toBe("end");
  });
});
