/**
 * What a client waits for: the built server in a process of its own, asked over its stream as an editor asks. Printed, never asserted.
 * Goals on an idle machine: hints 16 ms after a key (median, badly tuned design); 60 ms with 40 instruments in one file; findings told
 * unasked 60 ms after the last key; 60 ms from the start to `initialized`, and for `activate` of the editor's side. Beside each the
 * processor time of the server for one key, which other work on the machine makes less of.
 */
import { type ChildProcess, spawn, spawnSync } from "node:child_process";
import { readFileSync } from "node:fs";
import { performance } from "node:perf_hooks";
import {
  createProtocolConnection,
  type ProtocolConnection,
  StreamMessageReader,
  StreamMessageWriter,
} from "vscode-languageserver/node";
import { longDesign } from "./longDesign.js";

const URI = "file:///bench/long.bore.yaml";
const KEYS = 60;
const WARMING = 20;
/** Of what is done once in a process. */
const RUNS = 9;
/** Between two keys, ms: everything asked for is answered by then. */
const PAUSE = 60;

const PULLS = {
  textDocument: {
    diagnostic: {},
    inlayHint: { resolveSupport: { properties: ["tooltip", "label.location", "label.command"] } },
  },
};
const CANNOT_PULL = { textDocument: { publishDiagnostics: {} } };

interface Server {
  readonly process: ChildProcess;
  readonly connection: ProtocolConnection;
  /** ms from the start of the process. */
  readonly begunAfter: number;
}

async function started(capabilities: object): Promise<Server> {
  const begun = performance.now();
  const server = spawn(process.execPath, ["dist/cli.cjs", "serve", "--stdio"], { stdio: ["pipe", "pipe", "inherit"] });
  const connection = createProtocolConnection(
    new StreamMessageReader(server.stdout),
    new StreamMessageWriter(server.stdin),
  );
  connection.listen();
  await connection.sendRequest("initialize", { processId: process.pid, rootUri: null, capabilities });
  await connection.sendNotification("initialized", {});
  return { process: server, connection, begunAfter: performance.now() - begun };
}

async function ended({ connection, process: server }: Server): Promise<void> {
  await connection.sendRequest("shutdown");
  await connection.sendNotification("exit");
  await new Promise((done) => server.once("exit", done));
  connection.dispose();
}

const pause = (ms: number) => new Promise((done) => setTimeout(done, ms));

/** Of a process, user and system, ms; where the system tells. */
function processorTime(pid: number | undefined): number {
  try {
    const fields = readFileSync(`/proc/${pid}/stat`, "utf8").split(") ")[1]?.split(" ") ?? [];
    return 10 * (Number(fields[11]) + Number(fields[12]));
  } catch {
    return Number.NaN;
  }
}

function print(name: string, times: readonly number[], note = ""): void {
  const sorted = [...times].sort((a, b) => a - b);
  const at = (share: number) => (sorted[Math.floor(share * (sorted.length - 1))] ?? Number.NaN).toFixed(1);
  console.log(`${name.padEnd(64)} fastest ${at(0)} ms, median ${at(0.5)} ms, p95 ${at(0.95)} ms${note}`);
}

/** Types `KEYS` keys, one after the other; `answered` waits for what the name says, and returns times after the key. */
async function typing(
  name: string,
  server: Server,
  textOf: (key: number) => string,
  answered: (begun: number) => Promise<Readonly<Record<string, number>>>,
): Promise<void> {
  const { connection } = server;
  const text = textOf(0);
  await connection.sendNotification("textDocument/didOpen", {
    textDocument: { uri: URI, languageId: "yaml", version: 1, text },
  });
  const times: Record<string, number[]> = {};
  let before = 0;
  for (let key = 1; key <= WARMING + KEYS; key++) {
    await pause(PAUSE);
    if (key === WARMING + 1) before = processorTime(server.process.pid);
    const contentChanges = [{ text: textOf(key) }];
    const begun = performance.now();
    void connection.sendNotification("textDocument/didChange", {
      textDocument: { uri: URI, version: key + 1 },
      contentChanges,
    });
    for (const [what, time] of Object.entries(await answered(begun))) if (key > WARMING) push(times, what, time);
  }
  const each = (processorTime(server.process.pid) - before) / KEYS;
  for (const [what, all] of Object.entries(times))
    print(`${name}, to its ${what}`, all, `; processor ${each.toFixed(1)} ms a key`);
  await connection.sendNotification("textDocument/didClose", { textDocument: { uri: URI } });
}

function push(times: Record<string, number[]>, what: string, time: number): void {
  times[what] = [...(times[what] ?? []), time];
}

/** As VS Code asks: findings first, then hints of what is seen. */
function asked({ connection }: Server, line = 0) {
  const textDocument = { uri: URI };
  const range = { start: { line, character: 0 }, end: { line: line + 60, character: 0 } };
  return async (begun: number) => {
    const after = async (method: string, more: object) => {
      await connection.sendRequest(method, { textDocument, ...more });
      return performance.now() - begun;
    };
    const [findings, hints] = await Promise.all([
      after("textDocument/diagnostic", {}),
      after("textDocument/inlayHint", { range }),
    ]);
    return { hints, findings };
  };
}

/** Told without being asked. */
function told({ connection }: Server) {
  let heard: (() => void) | undefined;
  connection.onNotification("textDocument/publishDiagnostics", () => heard?.());
  return async (begun: number) => {
    await new Promise<void>((done) => {
      heard = done;
    });
    return { findings: performance.now() - begun };
  };
}

/**
 * The editor's side as an editor loads it where no design is open yet: with one, the rest of it follows in the background. In a process of
 * its own with a stand-in for the editor, whose every part may be called, made and asked for more. Prints milliseconds.
 */
const ACTIVATION = `
const { Module } = require("node:module");
const anything = () => new Proxy(class {}, {
  get: (part, name) => (name === "then" ? undefined : name === "prototype" ? part.prototype : anything()),
  apply: anything,
  construct: anything,
});
const editor = { ...anything(), commands: anything(), workspace: { textDocuments: [], findFiles: async () => [],
  onDidOpenTextDocument: anything(), onDidChangeTextDocument: anything() }, tasks: anything(), l10n: anything() };
const load = Module._load;
Module._load = function (name, ...more) { return name === "vscode" ? editor : load.call(this, name, ...more); };
const begun = performance.now();
require(require("node:path").resolve("dist/client.cjs")).activate({ subscriptions: [], asAbsolutePath: (path) => path });
console.log(performance.now() - begun);
process.exit(0);
`;

function activation(): number {
  return Number(spawnSync(process.execPath, ["-e", ACTIVATION], { encoding: "utf8" }).stdout);
}

async function main(): Promise<void> {
  print("from loading the editor's side to the end of `activate`", Array.from({ length: RUNS }, activation));
  const starts: number[] = [];
  for (let run = 0; run < RUNS; run++) {
    const server = await started(PULLS);
    starts.push(server.begunAfter);
    await ended(server);
  }
  print("from the start of the process to `initialized`", starts);

  const pulling = await started(PULLS);
  await typing("badly tuned design of 300 lines", pulling, (key) => longDesign(270 + key / 97), asked(pulling));
  const tuned = (key: number) => longDesign(270.5 + key / 97).replace("key: F#4", "key: F#4\ntolerance: 1000");
  await typing("the same, every note in tune", pulling, tuned, asked(pulling));
  /** The twentieth of forty is edited. */
  const MANY = 40;
  const others = Array.from({ length: MANY }, (_, i) => longDesign(260 + i / 7, 0));
  const many = (key: number) =>
    others.map((text, i) => (i === 20 ? longDesign(270 + key / 97, 0) : text)).join("---\n");
  const line = others.slice(0, 20).join("---\n").split("\n").length;
  await typing(`${MANY} instruments in one file`, pulling, many, asked(pulling, line));
  await ended(pulling);

  const pushed = await started(CANNOT_PULL);
  await typing("a client that cannot pull", pushed, (key) => longDesign(270 + key / 97), told(pushed));
  await ended(pushed);
}

void main();
