/** The connection of a program of its own. */
import {
  type Connection,
  createConnection,
  type MessageReader,
  type MessageWriter,
  ProposedFeatures,
} from "vscode-languageserver/node";
import { gated } from "../gated.js";

/** Over the given streams, or without any as the arguments of the process say (`--node-ipc`, `--stdio`, `--pipe=…`). */
export function createServerConnection(reader?: MessageReader, writer?: MessageWriter): Connection {
  return gated((options) =>
    reader === undefined || writer === undefined
      ? createConnection(ProposedFeatures.all, options)
      : createConnection(ProposedFeatures.all, reader, writer, options),
  );
}
