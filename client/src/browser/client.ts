/** The client in a browser: its server is a worker. */
import { Uri } from "vscode";
import { BrowserMessageReader, BrowserMessageWriter, LanguageClient } from "vscode-languageclient/browser";
import type { WorkerRole } from "../../../server/src/protocol/browserWorker.js";
import type { Platform } from "../platform.js";
import { telling } from "../tellingClient.js";

type ServerWorker = ConstructorParameters<typeof BrowserMessageReader>[0] & { terminate(): void };

declare const Worker: new (url: string, options: { name: string }) => ServerWorker;

export const home: Platform["home"] = undefined;

export const createClient: Platform["createClient"] = (context, id, name, options) => {
  const program = Uri.joinPath(context.extensionUri, "dist", "webWorker.js").toString(true);
  let worker: ServerWorker | undefined;
  // Anew at each start: a restart is to begin from nothing.
  const start = async () => {
    worker?.terminate();
    worker = new Worker(program, { name: "Borewright" });
    worker.postMessage({ role: "server", program } satisfies WorkerRole);
    // Not the worker itself: the editor has another class in the place of the browser's, and the library would not know it.
    return { reader: new BrowserMessageReader(worker), writer: new BrowserMessageWriter(worker) };
  };
  context.subscriptions.push({ dispose: () => worker?.terminate() });
  return telling(new LanguageClient(id, name, start, options));
};
