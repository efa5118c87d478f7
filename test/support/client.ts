/** An editor for tests: a client of the server over a real JSON-RPC stream, which keeps what it is sent. */
import { PassThrough } from "node:stream";
import { pathToFileURL } from "node:url";
import { afterEach, expect } from "vitest";
import {
  createProtocolConnection,
  type Diagnostic,
  type InitializeResult,
  type ProtocolConnection,
  StreamMessageReader,
  StreamMessageWriter,
  type WorkspaceEdit,
} from "vscode-languageserver/node";
import { createServerConnection } from "../../server/src/language/node/connection.js";
import { type ServerOptions, startServer } from "../../server/src/language/startServer.js";

/** As Windows editors write it: an answer must echo it letter for letter. */
export const URI = "file:///c%3A/work/whistle.bore.yaml";

const open: ProtocolConnection[] = [];
afterEach(() => {
  for (const connection of open.splice(0)) connection.dispose();
});

export interface Client {
  readonly connection: ProtocolConnection;
  readonly pushed: { uri: string; diagnostics: Diagnostic[] }[];
  readonly applied: WorkspaceEdit[];
  /** What the server writes to the log. */
  readonly logged: string[];
  /** What it answers when asked; a function is given the scope. */
  settings: unknown;
  refreshes: number;
  open(text: string, uri?: string): void;
  /** The whole text again, as the next version. */
  change(text: string, version: number): void;
}

/** Capabilities of a client that pulls its diagnostics. */
export const PULLING = {
  textDocument: {
    diagnostic: {},
    codeAction: { dataSupport: true, resolveSupport: { properties: ["edit"] } },
    hover: { contentFormat: ["markdown"] },
  },
  workspace: {
    configuration: true,
    diagnostics: { refreshSupport: true },
    workspaceEdit: { documentChanges: true },
  },
};

/** A server and its client, initialised. Both end with the test. */
export async function client(
  capabilities: object,
  options: ServerOptions = {},
  folder?: string,
  more: object = {},
): Promise<Client & { readonly result: InitializeResult }> {
  const [up, down] = [new PassThrough(), new PassThrough()];
  startServer(createServerConnection(new StreamMessageReader(up), new StreamMessageWriter(down)), options);
  const connection = createProtocolConnection(new StreamMessageReader(down), new StreamMessageWriter(up));
  open.push(connection);
  const self: Client = {
    connection,
    pushed: [],
    applied: [],
    logged: [],
    settings: {},
    refreshes: 0,
    open: (text, uri = URI) =>
      void connection.sendNotification("textDocument/didOpen", {
        textDocument: { uri, languageId: "yaml", version: 1, text },
      }),
    change: (text, version) =>
      void connection.sendNotification("textDocument/didChange", {
        textDocument: { uri: URI, version },
        contentChanges: [{ text }],
      }),
  };
  connection.onNotification("textDocument/publishDiagnostics", (params) => void self.pushed.push(params));
  connection.onNotification("window/logMessage", ({ message }) => void self.logged.push(message));
  connection.onRequest("workspace/configuration", ({ items }: { items: { scopeUri?: string }[] }) =>
    items.map(({ scopeUri }) => (typeof self.settings === "function" ? self.settings(scopeUri) : self.settings)),
  );
  connection.onRequest("workspace/diagnostic/refresh", () => {
    self.refreshes++;
    return null;
  });
  // As VS Code does: before its `initialize` is answered, nothing may be asked of a client.
  let isReady = false;
  connection.onRequest("client/registerCapability", () => {
    if (!isReady) throw new Error("The server asked before it had answered `initialize`.");
    return null;
  });
  connection.onRequest("workspace/applyEdit", ({ edit }) => {
    self.applied.push(edit);
    return { applied: true };
  });
  connection.listen();
  const result = await connection.sendRequest<InitializeResult>("initialize", {
    processId: null,
    rootUri: null,
    ...(folder === undefined ? {} : { workspaceFolders: [{ uri: pathToFileURL(folder).href, name: "designs" }] }),
    capabilities,
    initializationOptions: { commands: ["borewright.rekeyTo"], rulePages: "file:///rules" },
    ...more,
  });
  isReady = true;
  await connection.sendNotification("initialized", {});
  return Object.assign(self, { result });
}

/** Findings as a client pulls them. */
export async function pulled({ connection }: Client, uri = URI): Promise<Diagnostic[]> {
  const report = await connection.sendRequest<{ items: Diagnostic[] }>("textDocument/diagnostic", {
    textDocument: { uri },
  });
  return report.items;
}

/** Waits for what the server sends by itself; fails after four seconds. */
export const until = async (condition: () => boolean) => {
  for (let i = 0; i < 400 && !condition(); i++) await new Promise((resolve) => setTimeout(resolve, 10));
  expect(condition()).toBe(true);
};
