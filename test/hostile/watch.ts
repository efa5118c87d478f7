/** Watches the process that tries: one that dies or says nothing for too long has found a fault itself. */
import { fork } from "node:child_process";
import type { Message, Order } from "./child.js";
import type { Report } from "./report.js";

/** A case that takes longer hangs, ms: the processes that a case starts are given less. */
const PATIENCE = 150_000;
/** Of what the process printed before it died. */
const MOST_SHOWN = 4000;

/** Tries until the time is over; a process that ends before is replaced by one with other cases. */
export async function watched(order: Order, report: Report): Promise<void> {
  const end = performance.now() + order.milliseconds;
  report.begin(order.kind);
  for (let round = 0; round === 0 || performance.now() < end; round++) {
    const left = Math.max(0, end - performance.now());
    if (await ended({ ...order, seed: order.seed + round * NEXT, milliseconds: left }, report)) break;
  }
  report.end();
}

/** From one process's seed to the next one's. */
const NEXT = 1009;

/** True where the process came to its end; false where it crashed or had to be killed. */
function ended(order: Order, report: Report): Promise<boolean> {
  const child = fork(process.argv[1] ?? "", {
    env: { ...process.env, BOREWRIGHT_HOSTILE_ORDER: JSON.stringify(order) },
    execArgv: ["--expose-gc"],
    stdio: ["ignore", "pipe", "pipe", "ipc"],
  });
  let printed = "";
  for (const stream of [child.stdout, child.stderr])
    stream?.on("data", (data: Buffer) => {
      printed = (printed + data.toString()).slice(-MOST_SHOWN);
    });
  let given: unknown;
  let done = false;
  let hangs = false;
  const wait = () =>
    setTimeout(() => {
      hangs = true;
      child.kill("SIGKILL");
    }, PATIENCE);
  let timer = wait();
  child.on("message", (message: Message) => {
    clearTimeout(timer);
    timer = wait();
    if ("began" in message) given = message.began;
    else if ("done" in message) done = true;
    else report.take(message);
  });
  return new Promise((resolve) => {
    child.on("exit", (code, signal) => {
      clearTimeout(timer);
      if (done) return resolve(true);
      const fault = hangs
        ? { rule: "hang", detail: `more than ${PATIENCE / 1000} s` }
        : { rule: "process died", detail: `${signal ?? `exit ${code}`}\n${printed}` };
      report.take({ ended: true, faults: [fault.rule] });
      report.take({ found: { fault, given } });
      resolve(false);
    });
  });
}
