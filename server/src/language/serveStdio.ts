/** The server over standard input and output, for any editor: what `borewright serve --stdio` runs. */
import { StreamMessageReader, StreamMessageWriter } from "vscode-languageserver/node";
import { createServerConnection } from "./connection.js";
import { type ServerOptions, startServer } from "./startServer.js";

export function serveStdio(options: ServerOptions = {}): void {
  const reader = new StreamMessageReader(process.stdin);
  const writer = new StreamMessageWriter(process.stdout);
  // Without an `initialize` that names a parent process, the end of the input is the only sign that nobody listens.
  process.stdin.on("end", () => process.exit(0));
  startServer(createServerConnection(reader, writer), options);
}
