/** The built server in a process of its own, spoken to over its stream as any editor does. */
import { spawn } from "node:child_process";
import { join } from "node:path";
import { pathToFileURL } from "node:url";
import {
  createProtocolConnection,
  type InitializeResult,
  type ProtocolConnection,
  StreamMessageReader,
  StreamMessageWriter,
} from "vscode-languageserver/node";

const PROGRAM = join(import.meta.dirname, "../../dist/cli.cjs");

export interface Served {
  readonly connection: ProtocolConnection;
  readonly result: InitializeResult;
  end(): Promise<void>;
}

/** @param folder that the editor has open */
export async function served(capabilities: object, folder: string): Promise<Served> {
  const server = spawn(process.execPath, [PROGRAM, "serve", "--stdio"], { stdio: ["pipe", "pipe", "inherit"] });
  const connection = createProtocolConnection(
    new StreamMessageReader(server.stdout),
    new StreamMessageWriter(server.stdin),
  );
  connection.onRequest("client/registerCapability", () => null);
  connection.onRequest("workspace/configuration", ({ items }: { items: unknown[] }) => items.map(() => null));
  connection.listen();
  const result = await connection.sendRequest<InitializeResult>("initialize", {
    processId: process.pid,
    rootUri: null,
    workspaceFolders: [{ uri: pathToFileURL(folder).href, name: "designs" }],
    capabilities,
    initializationOptions: { rulePages: "https://pages.example/rules" },
  });
  await connection.sendNotification("initialized", {});
  return {
    connection,
    result,
    end: async () => {
      await connection.sendRequest("shutdown");
      await connection.sendNotification("exit");
      await new Promise((done) => server.once("exit", done));
      connection.dispose();
    },
  };
}
