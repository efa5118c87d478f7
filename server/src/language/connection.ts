/** The connection both shells use: unread requests that are cancelled are answered without being started. */
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
  if (reader === undefined || writer === undefined) return createConnection(ProposedFeatures.all, OPTIONS);
  return createConnection(ProposedFeatures.all, reader, writer, OPTIONS);
}
