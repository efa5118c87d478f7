/** An editor for trials: a client of a server in this process, over a real JSON-RPC stream. */
import { PassThrough } from "node:stream";
import {
  type CancellationToken,
  createProtocolConnection,
  type ProtocolConnection,
  StreamMessageReader,
  StreamMessageWriter,
  type WorkspaceEdit,
} from "vscode-languageserver/node";
import { tellFaultsTo } from "../../server/src/instrument/contained.js";
import { createServerConnection } from "../../server/src/language/node/connection.js";
import { type ServerOptions, startServer } from "../../server/src/language/startServer.js";
import { type Fault, thrown } from "./kind.js";

/** A client that can do everything. */
export const CAPABILITIES = {
  textDocument: {
    diagnostic: {},
    publishDiagnostics: { relatedInformation: true, codeDescriptionSupport: true },
    hover: { contentFormat: ["markdown"] },
    completion: { completionItem: { snippetSupport: true, documentationFormat: ["markdown"] } },
    codeAction: { dataSupport: true, resolveSupport: { properties: ["edit"] } },
    documentSymbol: { hierarchicalDocumentSymbolSupport: true },
  },
  workspace: { configuration: true, applyEdit: true, workspaceEdit: { documentChanges: true } },
};

export interface ContentChange {
  readonly range?: unknown;
  readonly text: string;
}

export class Editor {
  readonly applied: WorkspaceEdit[] = [];
  private logged: string[] = [];
  private contained: Fault[] = [];

  private constructor(readonly connection: ProtocolConnection) {
    connection.onNotification("window/logMessage", ({ message }) => void this.logged.push(message));
    connection.onRequest("workspace/configuration", () => [{}]);
    connection.onRequest("client/registerCapability", () => null);
    connection.onRequest("workspace/applyEdit", ({ edit }) => {
      this.applied.push(edit);
      return { applied: true };
    });
  }

  static async start(options: ServerOptions = {}, capabilities: object = CAPABILITIES): Promise<Editor> {
    const [up, down] = [new PassThrough(), new PassThrough()];
    startServer(createServerConnection(new StreamMessageReader(up), new StreamMessageWriter(down)), options);
    const editor = new Editor(createProtocolConnection(new StreamMessageReader(down), new StreamMessageWriter(up)));
    editor.connection.listen();
    const initializationOptions = { commands: ["borewright.rekeyTo"], rulePages: "file:///rules" };
    await editor.ask("initialize", { processId: null, rootUri: null, capabilities, initializationOptions });
    await editor.connection.sendNotification("initialized", {});
    editor.listen();
    return editor;
  }

  open(uri: string, text: string, version = 1): void {
    this.tell("didOpen", { textDocument: { uri, languageId: "yaml", version, text } });
  }

  change(uri: string, version: number, contentChanges: readonly ContentChange[]): void {
    this.tell("didChange", { textDocument: { uri, version }, contentChanges });
  }

  close(uri: string): void {
    this.tell("didClose", { textDocument: { uri } });
  }

  ask<T>(method: string, params: unknown, token?: CancellationToken): Promise<T> {
    return token === undefined
      ? this.connection.sendRequest<T>(method, params)
      : this.connection.sendRequest<T>(method, params, token);
  }

  /** The failures the server has put into its log since this was asked last. */
  failures(): readonly Fault[] {
    const logged = this.logged
      .filter((message) => /failed|\n {4}at /.test(message))
      .map((message) => thrown("crash", Object.assign(new Error(), { stack: message })));
    const faults = [...logged, ...this.contained];
    this.logged = [];
    this.listen();
    return faults;
  }

  /** A fault is reported once: to a new listener, all are new, so that the next case finds it again. */
  private listen(): void {
    this.contained = [];
    tellFaultsTo((error) => this.contained.push(thrown("crash", error)));
  }

  end(): void {
    this.connection.dispose();
  }

  private tell(method: string, params: unknown): void {
    void this.connection.sendNotification(`textDocument/${method}`, params);
  }
}
