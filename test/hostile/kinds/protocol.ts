/** Abuse of the protocol, sent to a server of its own: it answers each request once, stays usable, and ends when told to. */

import { type Message, Messages } from "../drawnMessages.js";
import type { Fault, Kind, Parts } from "../kind.js";
import { type Answer, Peer } from "../peer.js";
import { examples } from "../texts.js";

interface ProtocolCase {
  /** Before `initialize`, after it, after `shutdown`. */
  readonly before: readonly Message[];
  readonly initialize: Message;
  readonly during: readonly Message[];
  readonly after: readonly Message[];
  readonly ending: "exit" | "exit at once" | "input closed" | "terminated" | "killed";
}

/** ms. Any machine answers and ends within these. */
const ANSWERED = 30_000;
const ENDED = 10_000;
/** Of the protocol. */
const NOT_INITIALIZED = -32002;
const INVALID_REQUEST = -32600;
const INVALID_PARAMS = -32602;
const CANCELLED = -32800;
const INTERNAL_ERROR = -32603;
/** Beyond those that a draw can reach. */
const GREETING = 100_000;
const PROBE = 100_001;
const SHUTDOWN = 100_002;
const LONG_WORK = 100_003;
/** ms of long work before the process is killed. */
const WORKING = 200;
const PROBED = "file:///h/probe.bore.yaml";
const GREETING_MESSAGE = {
  jsonrpc: "2.0",
  id: GREETING,
  method: "initialize",
  params: { processId: null, rootUri: null, capabilities: {} },
};

export const protocol: Kind<ProtocolCase> = {
  name: "protocol",
  share: 4,
  draw: (random) => {
    const messages = new Messages(random);
    const many = (most: number) => Array.from({ length: random.whole(0, most) }, () => messages.abuse()).flat();
    return {
      // One `initialize` among them would be the first.
      before: random.chance(0.3) ? many(2).filter(({ method }) => method !== "initialize") : [],
      initialize: messages.initialize(),
      during: many(8),
      after: random.chance(0.4) ? many(2) : [],
      ending: random.pick(["exit", "exit", "exit at once", "input closed", "terminated", "killed"]),
    };
  },
  check: protocolFaults,
  parts: (["before", "during", "after"] as const).map(
    (part): Parts<ProtocolCase> => ({
      of: (given) => given[part],
      from: (given, messages) => ({ ...given, [part]: messages }),
    }),
  ),
};

async function protocolFaults(given: ProtocolCase): Promise<readonly Fault[]> {
  const peer = new Peer();
  try {
    for (const message of [...given.before, given.initialize]) peer.send({ ...message });
    await begun(peer, given.initialize);
    for (const message of given.during) peer.send({ ...message });
    const faults = [...(await probed(peer))];
    if (given.ending === "exit" || given.after.length > 0)
      peer.send({ jsonrpc: "2.0", id: SHUTDOWN, method: "shutdown" });
    for (const message of given.after) peer.send({ ...message });
    const asked = [...given.before, given.initialize, ...given.during, ...given.after].filter(isRequest);
    const all = () => asked.every(({ id }) => peer.answers.some((answer) => answer.id === id));
    const complete = faults.length > 0 || (await peer.until(all, ANSWERED));
    if (!complete) {
      const unanswered = asked.filter(({ id }) => !peer.answers.some((answer) => answer.id === id));
      faults.push({ rule: "never answered", detail: unanswered.map(({ method }) => method).join(", ") });
    }
    faults.push(
      ...asked.flatMap(({ id, method }) =>
        answerFaults(
          given,
          method,
          peer.answers.filter((each) => each.id === id),
        ),
      ),
    );
    faults.push(...(await ended(peer, given)));
    faults.push(...internal(peer));
    return faults;
  } finally {
    peer.kill();
  }
}

/** A server that refuses its initialization is initialized again. */
async function begun(peer: Peer, { id }: Message): Promise<void> {
  const answer = () => peer.answers.find((each) => each.id === id);
  await peer.until(() => answer() !== undefined || peer.exit !== undefined, ANSWERED);
  if (answer()?.error?.code === INVALID_PARAMS) peer.send(GREETING_MESSAGE);
  peer.send({ jsonrpc: "2.0", method: "initialized", params: {} });
}

const isRequest = ({ id, method }: Message) => id !== undefined && method !== undefined;

/** Whether it is still usable: it is given a file, and says what a note sounds. */
async function probed(peer: Peer): Promise<readonly Fault[]> {
  const uri = PROBED;
  const text = examples().find(({ file }) => file.startsWith("quay"))?.text ?? "";
  const line = text.split("\n").findIndex((each) => each.includes("●●●●●●"));
  const position = { line, character: 30 };
  peer.send({
    jsonrpc: "2.0",
    method: "textDocument/didOpen",
    params: { textDocument: { uri, languageId: "yaml", version: 1, text } },
  });
  peer.send({ jsonrpc: "2.0", id: PROBE, method: "textDocument/hover", params: { textDocument: { uri }, position } });
  const answer = (): Answer | undefined => peer.answers.find(({ id }) => id === PROBE);
  if (!(await peer.until(() => answer() !== undefined || peer.exit !== undefined, ANSWERED)))
    return [{ rule: "hang", detail: `no hover for ${ANSWERED / 1000} s` }];
  if (peer.exit !== undefined) return [{ rule: "server died", detail: `${JSON.stringify(peer.exit)}\n${peer.stderr}` }];
  if (JSON.stringify(answer()?.result ?? "").includes("Hz")) return [];
  return [{ rule: "of no use any more", detail: JSON.stringify(answer()).slice(0, 300) }];
}

function answerFaults(given: ProtocolCase, method = "", answers: readonly Answer[]): readonly Fault[] {
  if (answers.length > 1) return [{ rule: "answered twice", detail: method }];
  const { id, error } = answers[0] ?? {};
  const wanted = given.before.some((message) => message.id === id)
    ? method === "initialize"
      ? undefined
      : NOT_INITIALIZED
    : given.after.some((message) => message.id === id)
      ? INVALID_REQUEST
      : undefined;
  if (answers.length === 1 && wanted !== undefined && error?.code !== wanted && error?.code !== CANCELLED)
    return [
      {
        rule: wanted === NOT_INITIALIZED ? "answered before initialize" : "answered after shutdown",
        detail: `${method}\n${JSON.stringify(answers[0]).slice(0, 200)}`,
      },
    ];
  if (error?.code === INTERNAL_ERROR) return [{ rule: "internal error", detail: error.message }];
  return [];
}

async function ended(peer: Peer, { ending, after }: ProtocolCase): Promise<readonly Fault[]> {
  if (peer.exit !== undefined) return [];
  if (ending === "input closed") peer.closeInput();
  else if (ending === "terminated") peer.kill("SIGTERM");
  else if (ending === "killed") return killedAtWork(peer);
  else peer.send({ jsonrpc: "2.0", method: "exit" });
  if (!(await peer.until(() => peer.exit !== undefined, ENDED))) return [{ rule: "does not end", detail: ending }];
  // By the protocol: 0 after a shutdown, 1 without one.
  const wanted = ending === "exit" || after.length > 0 ? 0 : 1;
  if (ending.startsWith("exit") && peer.status !== wanted)
    return [{ rule: "exit status", detail: `${ending}: ${peer.status}` }];
  return [];
}

/** A server killed in the middle of long work leaves nothing that would be in the way of the next one. */
async function killedAtWork(peer: Peer): Promise<readonly Fault[]> {
  const call = { uri: PROBED, documentIndex: 0, note: "A4", by: "refit" };
  peer.send({
    jsonrpc: "2.0",
    id: LONG_WORK,
    method: "workspace/executeCommand",
    params: { command: "borewright.rekey", arguments: [call] },
  });
  await peer.until(() => false, WORKING);
  peer.kill("SIGKILL");
  const next = new Peer();
  try {
    next.send(GREETING_MESSAGE);
    return await probed(next);
  } finally {
    next.kill();
  }
}

/** What it says of itself where something broke. */
function internal({ logged, stderr }: Peer): readonly Fault[] {
  const broken = logged.filter((message) => /failed|\n {4}at /.test(message));
  const lines = (text: string) => text.split("\n").slice(0, 4).join("\n");
  return [
    ...broken.map((message) => ({ rule: "crash", detail: lines(message) })),
    ...(/\n {4}at |UnhandledPromise/.test(stderr) ? [{ rule: "crash", detail: lines(stderr.trim()) }] : []),
  ];
}
