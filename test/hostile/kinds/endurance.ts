/**
 * A long day in one server: two hundred keystrokes a second, a thousand open files, files opened and closed again and again, a
 * thread for long work that dies. After each part every file is closed and the heap measured: it must not grow from part to part.
 */
import { resolve } from "node:path";
import { setTimeout as pause } from "node:timers/promises";
import type { LongWork } from "../../../server/src/language/longWork/longWork.js";
import type { Thread } from "../../../server/src/language/longWork/workThread.js";
import { workThread } from "../../../server/src/language/node/thread.js";
import { drawnDesign } from "../drawnDesign.js";
import { Editor } from "../editor.js";
import { type Fault, type Kind, thrown } from "../kind.js";
import { linesOf, positionAt } from "../places.js";
import { Random } from "../random.js";
import { examples } from "../texts.js";
import { written } from "../written.js";

interface EnduranceCase {
  readonly part: string;
  readonly draws: number;
}

const KEYSTROKES = 600;
/** ms from one to the next: two hundred a second. */
const KEYSTROKE = 5;
const FILES = 1000;
const REOPENED = 150;
const EDITS = 150;
/** Any machine answers within this, ms. */
const PATIENCE = 30_000;
/** The heap settles within these many parts; from then on it may differ from the least so far by so much, MiB. */
const SETTLING = 10;
const SLACK = 6;

/** `uri` is nobody else's. Each part closes what it opens. */
type Part = (server: Editor, random: Random, uri: string) => Promise<readonly Fault[]>;

const PARTS: Readonly<Record<string, Part>> = {
  typing,
  "a thousand files": aThousandFiles,
  reopening,
  "a day of edits": aDayOfEdits,
  "a thread dies": aThreadDies,
};

let editor: Promise<Editor> | undefined;
let thread: LongWork | undefined;
let parts = 0;
let edits = 0;
const heaps: number[] = [];
/** Longest wait for an answer while typing, ms; and the heap with a thousand files open, MiB. */
let longestWait = 0;
let thousandOpen = 0;

export const endurance: Kind<EnduranceCase> = {
  name: "endurance",
  share: 4,
  draw: (random) => ({
    part: random.pick(Object.keys(PARTS)),
    draws: random.whole(0, 2 ** 30),
  }),
  check: enduranceFaults,
  parts: [],
  end: async (say) => {
    const points = heaps.filter((_, i) => i % Math.ceil(heaps.length / 8) === 0 || i === heaps.length - 1);
    await say(
      `heap after each collection, MiB: ${points.map((heap) => heap.toFixed(1)).join(" ")} (${heaps.length} parts, ${edits} edits)`,
    );
    await say(
      `with a thousand files open ${thousandOpen.toFixed(1)} MiB; longest wait while typing ${longestWait.toFixed(0)} ms`,
    );
  },
};

async function enduranceFaults({ part, draws }: EnduranceCase): Promise<readonly Fault[]> {
  thread ??= workThread(resolve("dist/cli.cjs"));
  editor ??= Editor.start({ longWork: thread });
  const server = await editor;
  const faults = [
    ...(await (PARTS[part] ?? typing)(server, new Random(draws), `file:///hostile/day/${++parts}.bore.yaml`)),
  ];
  // That the thread was killed is in the log by right.
  const failures = server
    .failures()
    .filter(({ detail }) => part !== "a thread dies" || !detail.includes("the thread for long work ended"));
  await settled(server);
  return [...faults, ...failures, ...(await heapFaults())];
}

/** An answer about no file: all messages before it have been read. */
const settled = (server: Editor) =>
  server.ask("textDocument/hover", { textDocument: { uri: "file:///nothing" }, position: { line: 0, character: 0 } });

async function heapFaults(): Promise<readonly Fault[]> {
  const heap = await heapInUse();
  heaps.push(heap);
  const later = heaps.slice(SETTLING);
  const least = Math.min(...later);
  if (later.length === 0 || heap - least <= SLACK) return [];
  return [{ rule: "heap grows", detail: `${least.toFixed(1)} to ${heap.toFixed(1)} MiB` }];
}

/** MiB after everything unused is collected. */
async function heapInUse(): Promise<number> {
  for (let round = 0; round < 3; round++) {
    globalThis.gc?.();
    await pause(20); // what waits for a turn of the event loop lets go
  }
  return process.memoryUsage().heapUsed / 2 ** 20;
}

const exampleText = (random: Random) => random.pick(examples().filter(({ file }) => file.endsWith(".yaml"))).text;

async function typing(server: Editor, random: Random, uri: string): Promise<readonly Fault[]> {
  let text = exampleText(random);
  server.open(uri, text);
  let at = random.whole(0, text.length);
  const waits: Promise<void>[] = [];
  const began = performance.now();
  for (let key = 0; key < KEYSTROKES; key++) {
    const put = random.pick(["1", "2", " ", "\n", "a", ":", "#", ""]);
    const length = put === "" && at > 0 ? 1 : 0;
    const lines = linesOf(text);
    const range = { start: positionAt(lines, at - length), end: positionAt(lines, at) };
    text = text.slice(0, at - length) + put + text.slice(at);
    at += put.length - length;
    server.change(uri, key + 2, [{ range, text: put }]);
    edits++;
    if (key % 10 === 0)
      waits.push(asked(server, random.pick(["inlayHint", "diagnostic", "hover", "codeLens"]), uri, range));
    if (key % 50 === 0) at = random.whole(0, text.length);
    const ahead = began + key * KEYSTROKE - performance.now();
    if (ahead > 0) await pause(ahead);
  }
  const all = await within(Promise.all(waits));
  const last = await within(server.ask("textDocument/diagnostic", { textDocument: { uri } }));
  server.close(uri);
  return [...all, ...last];
}

/** Whatever the answer; `ContentModified` and `ServerCancelled` belong to typing. */
async function asked(
  server: Editor,
  method: string,
  uri: string,
  range: { start: unknown; end: unknown },
): Promise<void> {
  const began = performance.now();
  const params = { textDocument: { uri }, position: range.start, range };
  await server.ask(`textDocument/${method}`, params).catch((error: { code?: number }) => {
    if (error.code !== -32801 && error.code !== -32802) throw error;
  });
  longestWait = Math.max(longestWait, performance.now() - began);
}

async function within(work: Promise<unknown>): Promise<readonly Fault[]> {
  const late = new AbortController();
  try {
    const first = await Promise.race([work.then(() => "done"), pause(PATIENCE, "late", { signal: late.signal })]);
    return first === "done" ? [] : [{ rule: "hang", detail: `no answer within ${PATIENCE / 1000} s` }];
  } catch (error) {
    return [thrown("error", error)];
  } finally {
    late.abort();
  }
}

async function aThousandFiles(server: Editor, random: Random, uri: string): Promise<readonly Fault[]> {
  const uris = Array.from({ length: FILES }, (_, i) => uri.replace(".bore", `-${i}.bore`));
  const text = exampleText(random);
  for (const [i, each] of uris.entries()) server.open(each, text.replace(/name: .*/, `name: Number ${i}`));
  const faults: Fault[] = [];
  for (let i = 0; i < 25; i++) {
    const each = random.pick(uris);
    server.change(each, i + 2, [{ text: text.replace(/tolerance: \d+/, `tolerance: ${i + 2}`) }]);
    edits++;
    faults.push(...(await within(server.ask("textDocument/diagnostic", { textDocument: { uri: each } }))));
  }
  thousandOpen = Math.max(thousandOpen, await heapInUse());
  for (const each of uris) server.close(each);
  return faults;
}

async function reopening(server: Editor, random: Random, uri: string): Promise<readonly Fault[]> {
  const faults: Fault[] = [];
  for (let cycle = 0; cycle < REOPENED; cycle++) {
    server.open(uri, exampleText(random));
    // Every other one is closed while something is still being asked.
    const answer = server.ask("textDocument/documentSymbol", { textDocument: { uri } });
    if (cycle % 2 === 0) faults.push(...(await within(answer)));
    server.close(uri);
    await answer.catch(() => undefined);
  }
  return faults;
}

async function aDayOfEdits(server: Editor, random: Random, uri: string): Promise<readonly Fault[]> {
  const { text } = written(
    drawnDesign(random, random.pick(["duct", "rim", "transverse", "panpipe", "vessel"])),
    random,
  );
  const faults: Fault[] = [];
  server.open(uri, text);
  for (let edit = 0; edit < EDITS; edit++) {
    const number = random.pick([...text.matchAll(/\d+\.\d/g)]);
    const put = (Number(number[0]) * random.between(0.97, 1.03)).toFixed(1);
    const now = text.slice(0, number.index) + put + text.slice(number.index + number[0].length);
    server.change(uri, edit + 2, [{ text: random.chance(0.2) ? text : now }]);
    edits++;
    const method = random.pick(["inlayHint", "inlayHint", "codeLens", "documentSymbol"]);
    const range = { start: { line: 0, character: 0 }, end: { line: 999, character: 0 } };
    if (random.chance(0.3))
      faults.push(...(await within(server.ask(`textDocument/${method}`, { textDocument: { uri }, range }))));
  }
  faults.push(...(await within(server.ask("textDocument/diagnostic", { textDocument: { uri } }))));
  server.close(uri);
  return faults;
}

/** The thread is ended in the middle of its work: that work fails in words, and the next is done. */
async function aThreadDies(server: Editor, random: Random, uri: string): Promise<readonly Fault[]> {
  const text = examples().find(({ file }) => file.startsWith("quay"))?.text ?? "";
  server.open(uri, text);
  const rekey = (by: string) =>
    server.ask("workspace/executeCommand", {
      command: "borewright.rekey",
      arguments: [{ uri, documentIndex: 0, note: "A4", by }],
    });
  const broken = rekey("refit").then(
    () => "done" as const,
    () => "failed" as const,
  );
  await pause(random.whole(20, 300));
  (thread as unknown as { worker?: Thread }).worker?.end();
  const faults = [...(await within(broken))];
  faults.push(...(await within(rekey("print-scale"))));
  server.applied.length = 0;
  server.close(uri);
  return faults;
}
