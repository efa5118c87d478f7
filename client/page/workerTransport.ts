/** The server's worker as what the editor's client talks to: messages as text there, as plain values here. */
import type { Transport } from "@codemirror/lsp-client";
import type { WorkerRole } from "../../server/src/protocol/browserWorker.js";

/** @param program address of the server's script */
export function workerTransport(program: string): Transport {
  const worker = new Worker(program);
  worker.postMessage({ role: "server", program } satisfies WorkerRole);
  const handlers = new Set<(message: string) => void>();
  worker.addEventListener("message", ({ data }) => {
    for (const handler of handlers) handler(JSON.stringify(data));
  });
  return {
    send: (message) => worker.postMessage(JSON.parse(message)),
    subscribe: (handler) => void handlers.add(handler),
    unsubscribe: (handler) => void handlers.delete(handler),
  };
}
