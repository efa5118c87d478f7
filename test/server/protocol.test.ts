/** The server as an editor meets it: JSON-RPC over a real stream, messages in, messages out. */
import { fork, spawn } from "node:child_process";
import { join } from "node:path";
import fc from "fast-check";
import { describe, expect, it } from "vitest";
import {
  type CodeAction,
  createProtocolConnection,
  type Diagnostic,
  type InitializeResult,
  IPCMessageReader,
  IPCMessageWriter,
  StreamMessageReader,
  StreamMessageWriter,
  type TextEdit,
  type WorkspaceEdit,
} from "vscode-languageserver/node";
import { TextDocument } from "vscode-languageserver-textdocument";
import { client, PULLING, pulled, URI, until } from "../support/client.js";
import { checked, WHISTLE } from "../support/designs.js";

// A scaled tube is in tune as nearly as the unscaled one, not more nearly.
const TUNED = WHISTLE.replace("at: 210.3", "at: 205.3").replace("tolerance: 10", "tolerance: 12");
const at = (text: string, place: string) => {
  const { line, character } = TextDocument.create(URI, "", 0, text).positionAt(text.indexOf(place));
  return { line, character };
};

/** The text with an edit made, whichever of the protocol's two forms it has. */
function edited(text: string, edit: WorkspaceEdit | undefined): string {
  const changes = edit?.documentChanges?.flatMap((change) => ("edits" in change ? (change.edits as TextEdit[]) : []));
  return TextDocument.applyEdits(TextDocument.create(URI, "", 1, text), changes ?? edit?.changes?.[URI] ?? []);
}

describe("names and structure", () => {
  it("are answered over the wire, and a rename that is not possible says why", async () => {
    const self = await client(PULLING);
    self.open(WHISTLE);
    const { connection } = self;
    const asked = { textDocument: { uri: URI }, position: at(WHISTLE, "wall\n") };
    const [definition] = (await connection.sendRequest("textDocument/definition", asked)) as {
      range: { start: object };
    }[];
    expect(definition?.range.start).toEqual(at(WHISTLE, "wall: 3"));
    const renaming = (newName: string) => connection.sendRequest("textDocument/rename", { ...asked, newName });
    expect(edited(WHISTLE, (await renaming("thick")) as WorkspaceEdit)).toBe(
      WHISTLE.replace("=wall", "=thick").replace("{ wall:", "{ thick:"),
    );
    await expect(renaming("two words")).rejects.toMatchObject({ message: expect.stringContaining("formula") });
    for (const [method, extra] of [
      ["textDocument/references", { context: { includeDeclaration: true } }],
      ["textDocument/documentHighlight", {}],
      ["textDocument/prepareRename", {}],
      ["textDocument/signatureHelp", {}],
      ["textDocument/selectionRange", { positions: [asked.position] }],
      ["textDocument/documentLink", {}],
      ["textDocument/semanticTokens/full", {}],
      ["textDocument/formatting", { options: { tabSize: 2, insertSpaces: true } }],
    ] as const)
      expect(await connection.sendRequest(method, { ...asked, ...extra })).not.toBeInstanceOf(Error);
  });
});

describe("diagnostics", () => {
  it("are pulled by a client that supports it, and then never pushed", async () => {
    const self = await client(PULLING);
    expect(self.result.capabilities.diagnosticProvider).toBeDefined();
    self.open(WHISTLE);
    const [only, ...others] = await pulled(self);
    expect(others).toEqual([]);
    expect(only).toMatchObject({ code: "pitch/out-of-tune", source: "borewright" });
    expect(only?.codeDescription).toBeUndefined();
    await new Promise((resolve) => setTimeout(resolve, 400));
    expect(self.pushed).toEqual([]);
  });

  it("are pushed to one that does not, and cleared when the file is closed", async () => {
    const self = await client({});
    expect(self.result.capabilities.diagnosticProvider).toBeUndefined();
    self.open(WHISTLE);
    await until(() => self.pushed.length > 0);
    // Windows addresses come back letter for letter.
    expect(self.pushed[0]).toMatchObject({ uri: URI, diagnostics: [{ code: "pitch/out-of-tune" }] });
    await self.connection.sendNotification("textDocument/didClose", { textDocument: { uri: URI } });
    await until(() => self.pushed.at(-1)?.diagnostics.length === 0);
  });

  it("follow the settings as they change", async () => {
    const self = await client(PULLING);
    self.open(WHISTLE.replace("tolerance: 10\n", ""));
    const before = (await pulled(self)).length;
    self.settings = { tolerance: 60 };
    await self.connection.sendNotification("workspace/didChangeConfiguration", { settings: null });
    await until(() => self.refreshes > 0);
    expect(before).toBeGreaterThan(0);
    expect(await pulled(self)).toEqual([]);
  });

  it("ignore files that are not designs", async () => {
    const self = await client(PULLING);
    self.open("just: text", "file:///work/other.yaml");
    expect(await pulled(self, "file:///work/other.yaml")).toEqual([]);
  });
});

describe("what a maker asks for", () => {
  it("hover, hints, lenses, outline, folding and completion answer", async () => {
    const self = await client(PULLING);
    self.open(WHISTLE);
    const textDocument = { uri: URI };
    const ask = <T>(method: string, more: object = {}) =>
      self.connection.sendRequest<T>(`textDocument/${method}`, { textDocument, ...more });
    const hover = await ask<{ contents: { value: string } }>("hover", { position: at(WHISTLE, "●●●●●●") });
    expect(hover.contents.value).toContain("392.0 Hz");
    const range = { start: { line: 0, character: 0 }, end: { line: 99, character: 0 } };
    expect((await ask<unknown[]>("inlayHint", { range })).length).toBeGreaterThan(7);
    expect(JSON.stringify(await ask("codeLens"))).toContain("7 fingerings");
    expect(JSON.stringify(await ask("documentSymbol"))).toContain("L2");
    expect((await ask<unknown[]>("foldingRange")).length).toBeGreaterThan(2);
    const offered = await ask<{ label: string }[]>("completion", { position: at(WHISTLE, "name: Test") });
    expect(offered.length).toBeGreaterThan(0);
  });

  it("a quick fix, resolved and applied, takes its finding away", async () => {
    const self = await client(PULLING);
    self.open(WHISTLE);
    const diagnostics = await pulled(self);
    const range = diagnostics[0]?.range;
    const actions = await self.connection.sendRequest<CodeAction[]>("textDocument/codeAction", {
      textDocument: { uri: URI },
      range,
      context: { diagnostics },
    });
    const move = actions.find(({ title }) => title.startsWith("Move L2"));
    const { edit } = move?.edit ? move : await self.connection.sendRequest<CodeAction>("codeAction/resolve", move);
    const after = edited(WHISTLE, edit);
    expect(after).not.toBe(WHISTLE);
    expect(checked(after).findings.filter(({ code }) => code === "pitch/out-of-tune")).toEqual([]);
  });

  it("a rekey by command arrives as an edit, after which the design is in tune in the new key", async () => {
    const self = await client(PULLING);
    self.open(TUNED);
    const answer = await self.connection.sendRequest<{ applied: boolean }>("workspace/executeCommand", {
      command: "borewright.rekey",
      arguments: [{ uri: URI, documentIndex: 0, note: "Eb4", by: "redraw" }],
    });
    expect(answer.applied).toBe(true);
    const { analysis } = checked(edited(TUNED, self.applied[0]));
    expect(analysis.instrument.key?.name).toBe("Eb4");
    expect(analysis.summary?.outOfTune).toBe(0);
  });

  it("a rekey to something that is not a note is refused with a reason", async () => {
    const self = await client(PULLING);
    self.open(TUNED);
    const request = self.connection.sendRequest("workspace/executeCommand", {
      command: "borewright.rekey",
      arguments: [{ uri: URI, note: "H4" }],
    });
    await expect(request).rejects.toThrow(/is not a note/);
  });
});

describe("robustness", () => {
  it("a cancelled request ends as such, and later ones work", async () => {
    const self = await client(PULLING);
    self.open(WHISTLE);
    const { CancellationTokenSource } = await import("vscode-languageserver/node");
    const source = new CancellationTokenSource();
    const request = self.connection.sendRequest("textDocument/codeLens", { textDocument: { uri: URI } }, source.token);
    source.cancel();
    // −32800 is RequestCancelled in the protocol.
    await expect(request).rejects.toMatchObject({ code: -32800 });
    expect(await pulled(self)).toHaveLength(1);
  });

  it("edits piece by piece come to the same as the whole text", async () => {
    const self = await client(PULLING);
    const edits = fc.sample(
      fc.record({
        at: fc.nat(),
        length: fc.nat(12),
        put: fc.constantFrom("", "1", "\n", "x: 2\n", "🎶", "{", "\r\n", "  "),
      }),
      { seed: 7, numRuns: 25 },
    );
    let document = TextDocument.create(URI, "yaml", 1, WHISTLE);
    self.open(WHISTLE);
    for (const { at: place, length, put } of edits) {
      const start = place % document.getText().length;
      const range = { start: document.positionAt(start), end: document.positionAt(start + length) };
      document = TextDocument.update(document, [{ range, text: put }], document.version + 1);
      await self.connection.sendNotification("textDocument/didChange", {
        textDocument: { uri: URI, version: document.version },
        contentChanges: [{ range, text: put }],
      });
    }
    const other = "file:///work/whole.bore.yaml";
    self.open(document.getText(), other);
    const strip = (all: Diagnostic[]) => all.map(({ range, message, code }) => ({ range, message, code }));
    expect(strip(await pulled(self))).toEqual(strip(await pulled(self, other)));
  });
});

describe("borewright serve --stdio", () => {
  it("runs the same server in its own process and exits when told to", async () => {
    const child = spawn(process.execPath, [join(import.meta.dirname, "../../dist/cli.cjs"), "serve", "--stdio"]);
    const connection = createProtocolConnection(
      new StreamMessageReader(child.stdout),
      new StreamMessageWriter(child.stdin),
    );
    connection.onRequest("workspace/configuration", () => [{}]);
    connection.listen();
    const ended = new Promise((resolve) => child.on("exit", resolve));
    const { serverInfo } = await connection.sendRequest<InitializeResult>("initialize", {
      processId: process.pid,
      rootUri: null,
      capabilities: PULLING,
    });
    expect(serverInfo?.name).toBe("Borewright");
    await connection.sendNotification("initialized", {});
    await connection.sendNotification("textDocument/didOpen", {
      textDocument: { uri: URI, languageId: "yaml", version: 1, text: WHISTLE },
    });
    const { items } = await connection.sendRequest<{ items: Diagnostic[] }>("textDocument/diagnostic", {
      textDocument: { uri: URI },
    });
    expect(items.map(({ code }) => code)).toEqual(["pitch/out-of-tune"]);
    await connection.sendRequest("shutdown");
    await connection.sendNotification("exit");
    expect(await ended).toBe(0);
    connection.dispose();
  });

  it("speaks over the channel of a Node process, as VS Code starts it", async () => {
    const args = ["serve", "--node-ipc", `--clientProcessId=${process.pid}`];
    const child = fork(join(import.meta.dirname, "../../dist/cli.cjs"), args);
    const connection = createProtocolConnection(new IPCMessageReader(child), new IPCMessageWriter(child));
    connection.listen();
    const ended = new Promise((resolve) => child.on("exit", resolve));
    const { serverInfo } = await connection.sendRequest<InitializeResult>("initialize", {
      processId: process.pid,
      rootUri: null,
      capabilities: {},
    });
    expect(serverInfo?.name).toBe("Borewright");
    await connection.sendRequest("shutdown");
    await connection.sendNotification("exit");
    expect(await ended).toBe(0);
    connection.dispose();
  });

  it("exits once its streams are closed", async () => {
    const child = spawn(process.execPath, [join(import.meta.dirname, "../../dist/cli.cjs"), "serve", "--stdio"]);
    const ended = new Promise((resolve) => child.on("exit", resolve));
    child.stdin.end();
    expect(await ended).toBe(0);
  });
});
