/** The server as a program of its own, for VS Code and for any other editor: what `borewright serve` runs. */
import { StreamMessageReader, StreamMessageWriter } from "vscode-languageserver/node";
import { type ServerOptions, startServer } from "../startServer.js";
import { createServerConnection } from "./connection.js";

/** @param over standard input and output, or the channel to the Node process that has started this one */
export function serve(over: "stdio" | "node-ipc", options: ServerOptions = {}): void {
  if (over === "node-ipc") {
    startServer(createServerConnection(), options);
    return;
  }
  const reader = new StreamMessageReader(process.stdin);
  const writer = new StreamMessageWriter(process.stdout);
  // Without an `initialize` that names a parent process, the end of the input is the only sign that nobody listens.
  process.stdin.on("end", () => process.exit(0));
  startServer(createServerConnection(reader, writer), options);
}
