/** Common to every connection: a request cancelled unread is answered without being started, a malformed one by the gate. */
import {
  type Connection,
  type ConnectionOptions,
  LSPErrorCodes,
  type RequestMessage,
  type ResponseMessage,
} from "vscode-languageserver";
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

export function gated(connect: (options: ConnectionOptions) => Connection): Connection {
  const gate = new Gate();
  const connection = connect({ ...OPTIONS, messageStrategy: gate });
  gate.guard(connection);
  return connection;
}
