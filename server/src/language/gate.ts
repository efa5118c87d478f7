/**
 * What every message passes before anything is done about it: the order of a session (initialize first, nothing after shutdown)
 * and the form of the positions it names. Language Server Protocol 3.17, "Lifecycle Messages" and "Position".
 */
import {
  type Connection,
  ErrorCodes,
  type Message,
  type MessageStrategy,
  type RequestMessage,
  ResponseError,
} from "vscode-languageserver/node";

interface Refusal {
  readonly code: number;
  readonly message: string;
}

/** A request that may not be answered is sent on under this name, with the error to answer it with. */
const REFUSED = "borewright/refused";

export class Gate implements MessageStrategy {
  private stage: "before" | "open" | "over" = "before";
  private log: (message: string) => void = () => undefined;

  /** Makes the connection answer what this gate refuses. */
  guard(connection: Connection): void {
    this.log = (message) => connection.console.error(message);
    connection.onRequest(REFUSED, ({ code, message }: Refusal) => new ResponseError<void>(code, message));
  }

  handleMessage(message: Message, next: (message: Message) => void): void {
    const { method, id, params } = message as Partial<RequestMessage>;
    // Without a method it is an answer of the client's.
    const refusal = method === undefined ? undefined : this.refusalOf(method, params);
    if (refusal === undefined) {
      this.follow(method);
      next(message);
    } else if (id !== undefined) next({ ...message, method: REFUSED, params: refusal } as Message);
    else if (this.stage === "open") this.log(`${method} was not heeded: ${refusal.message}`);
  }

  private follow(method: string | undefined): void {
    if (method === "initialize") this.stage = "open";
    if (method === "shutdown") this.stage = "over";
  }

  private refusalOf(method: string, params: unknown): Refusal | undefined {
    if (method === "exit") return undefined;
    if (method === REFUSED) return { code: ErrorCodes.MethodNotFound, message: `no method ${method}` };
    if (method === "initialize" && this.stage === "open") return invalid("the session has begun already");
    if (this.stage === "before" && method !== "initialize")
      return { code: ErrorCodes.ServerNotInitialized, message: "the session begins with `initialize`" };
    if (this.stage === "over") return invalid("the session is over: it was shut down");
    const fault = faultIn(method, params);
    return fault === undefined ? undefined : { code: ErrorCodes.InvalidParams, message: fault };
  }
}

function invalid(message: string): Refusal {
  return { code: ErrorCodes.InvalidRequest, message };
}

type Given = Readonly<Record<string, unknown>>;

/** Requests that make no sense without. */
const AT_A_POSITION: readonly string[] = ["textDocument/hover", "textDocument/completion"];
const IN_A_RANGE: readonly string[] = ["textDocument/codeAction", "textDocument/inlayHint"];

/** What is wrong with the form of a message: of its positions and ranges, or of the text that it brings. */
function faultIn(method: string, params: unknown): string | undefined {
  if (!isGroup(params)) return undefined;
  const positions = "position" in params || AT_A_POSITION.includes(method) ? [params.position] : [];
  const ranges = "range" in params || IN_A_RANGE.includes(method) ? [params.range] : [];
  for (const diagnostic of listIn(params.context, "diagnostics")) ranges.push(at(diagnostic, "range"));
  for (const change of listIn(params, "contentChanges")) {
    if (at(change, "range") !== undefined) ranges.push(at(change, "range"));
    if (typeof at(change, "text") !== "string") return "a change needs its `text`";
  }
  for (const range of ranges) positions.push(at(range, "start"), at(range, "end"));
  const text = at(params.textDocument, "text");
  if (text !== undefined && typeof text !== "string") return "the `text` of a document is a text";
  if (positions.every(isPosition)) return undefined;
  const wrong = JSON.stringify(positions.find((each) => !isPosition(each))) ?? "nothing";
  return `${wrong} is no position: it has a \`line\` and a \`character\`, whole numbers from 0`;
}

function at(value: unknown, key: string): unknown {
  return isGroup(value) ? value[key] : undefined;
}

function listIn(value: unknown, key: string): readonly unknown[] {
  const list = at(value, key);
  return Array.isArray(list) ? list : [];
}

function isPosition(value: unknown): boolean {
  return isGroup(value) && isCount(value.line) && isCount(value.character);
}

/** Of any size: a position beyond the text counts as its end. */
function isCount(value: unknown): boolean {
  return Number.isInteger(value) && (value as number) >= 0;
}

function isGroup(value: unknown): value is Given {
  return typeof value === "object" && value !== null;
}
