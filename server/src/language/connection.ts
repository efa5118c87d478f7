/** The connection both shells use: what is cancelled unread is answered without being started, what is amiss by the gate. */
import {
  type Connection,
  type ConnectionOptions,
  createConnection,
  LSPErrorCodes,
  type MessageReader,
  type MessageWriter,
  ProposedFeatures,
  type RequestMessage,
  type ResponseMessage,
} from "vscode-languageserver/node";
import { Gate } from "./gate.js";

const OPTIONS: ConnectionOptions = {
  connectionStrategy: {
    cancelUndispatched: (message): ResponseMessage => ({
      jsonrpc: message.jsonrpc,
      id: (message as RequestMessage).id,
      error: { code: LSPErrorCodes.RequestCancelled, message: "cancelled" },
    }),
  },
};

/** Over the given streams, or without any as the arguments of the process say (`--node-ipc`, `--stdio`, `--pipe=…`). */
export function createServerConnection(reader?: MessageReader, writer?: MessageWriter): Connection {
  const gate = new Gate();
  const options: ConnectionOptions = { ...OPTIONS, messageStrategy: gate };
  const connection =
    reader === undefined || writer === undefined
      ? createConnection(ProposedFeatures.all, options)
      : createConnection(ProposedFeatures.all, reader, writer, options);
  gate.guard(connection);
  return connection;
}
