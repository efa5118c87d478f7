/**
 * What every message must pass before it is handled: the order of a session (initialize first, nothing after shutdown)
 * and the form of what it brings. Language Server Protocol 3.17, "Lifecycle Messages".
 */
import {
  type Connection,
  ErrorCodes,
  type Message,
  type MessageStrategy,
  type RequestMessage,
  ResponseError,
} from "vscode-languageserver";
import { faultIn } from "./messageForm.js";

interface Refusal {
  readonly code: number;
  readonly message: string;
}

/** A request that may not be answered is forwarded under this name, with the error to answer it with. */
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
    // A body of JSON may be `null`, or anything.
    const { method, id, params } = (message ?? {}) as Partial<RequestMessage>;
    // Without a method it is an answer of the client's, or nothing we handle.
    const refusal = typeof method === "string" ? this.refusalOf(method, params) : undefined;
    if (refusal === undefined) {
      this.follow(method);
      next(message);
    } else if (id !== undefined) next({ ...message, method: REFUSED, params: refusal } as Message);
    else if (this.stage === "open") this.log(`${method} was ignored: ${refusal.message}`);
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
