/** The language server as a worker of a browser, and its thread for long work: one script, the first message says which of them it is. */
import {
  BrowserMessageReader,
  BrowserMessageWriter,
  createConnection,
  ProposedFeatures,
} from "vscode-languageserver/browser";
import type { WorkerRole } from "../../protocol/browserWorker.js";
import { gated } from "../gated.js";
import { ONLY_GIVEN } from "../longWork/fromFiles.js";
import type { Report, Task } from "../longWork/messages.js";
import { reporting } from "../longWork/reporting.js";
import { WorkThread } from "../longWork/workThread.js";
import { startServer } from "../startServer.js";

/** What of a worker's global scope is used here: Node's types, which the rest is written against, do not have it. */
interface WorkerScope {
  postMessage(message: unknown): void;
  onmessage: ((event: { readonly data: unknown }) => void) | null;
}

declare const self: WorkerScope;

export function begin(role: WorkerRole): void {
  if (role.role === "thread") {
    const take = reporting(ONLY_GIVEN, (report) => self.postMessage(report));
    self.onmessage = (event) => take(event.data as Task);
    return;
  }
  const scope = self as unknown as ConstructorParameters<typeof BrowserMessageReader>[0];
  const reader = new BrowserMessageReader(scope);
  const writer = new BrowserMessageWriter(scope);
  const connection = gated((options) => createConnection(ProposedFeatures.all, reader, writer, options));
  startServer(connection, { longWork: workThread(role.program) });
}

interface ThreadWorker extends WorkerScope {
  onerror: ((event: { readonly message?: string }) => void) | null;
  terminate(): void;
}

declare const Worker: new (url: string) => ThreadWorker;

/** A worker inside this one. Its script comes by way of a blob, since a script of another origin may not be a worker's. */
function workThread(program: string): WorkThread {
  const bootstrap = new Blob([`importScripts(${JSON.stringify(program)});`], { type: "text/javascript" });
  return new WorkThread({
    // A page would have to be isolated from all others for it, and an editor's page is not.
    sharesMemory: false,
    start: (onReport, onEnd) => {
      const worker = new Worker(URL.createObjectURL(bootstrap as never));
      worker.onmessage = ({ data }) => onReport(data as Report);
      worker.onerror = ({ message }) => onEnd(new Error(message ?? "the worker for long work failed"));
      worker.postMessage({ role: "thread", program } satisfies WorkerRole);
      return {
        post: (task) => worker.postMessage(task),
        hold: () => undefined,
        end: () => worker.terminate(),
      };
    },
  });
}
