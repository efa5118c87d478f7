/** Clients of every kind, settings of every kind, files of every kind: the server goes on. */
import { describe, expect, it } from "vitest";
import type { ServerCapabilities } from "vscode-languageserver/node";
import { type Client, client, PULLING, pulled, URI, until } from "../support/client.js";
import { WHISTLE } from "../support/designs.js";

const textDocument = { uri: URI };
const lenses = (self: Client) =>
  self.connection.sendRequest<{ command: { title: string } }[]>("textDocument/codeLens", { textDocument });

describe("capabilities", () => {
  it("follow the client's", async () => {
    const full: ServerCapabilities = (await client(PULLING)).result.capabilities;
    expect(full).toMatchObject({
      textDocumentSync: { openClose: true, change: 2 }, // 2 is incremental
      diagnosticProvider: { interFileDependencies: false, workspaceDiagnostics: false },
      codeActionProvider: { resolveProvider: true },
      executeCommandProvider: { commands: expect.arrayContaining(["borewright.rekey"]) },
    });
    const bare = (await client({})).result.capabilities;
    expect(bare).not.toHaveProperty("diagnosticProvider");
    expect(bare).toMatchObject({ codeActionProvider: { resolveProvider: false } });
  });

  it("a client without trees gets the outline as a list, one without Markdown plain hovers", async () => {
    const self = await client({});
    self.open(WHISTLE);
    const symbols = await self.connection.sendRequest<object[]>("textDocument/documentSymbol", { textDocument });
    expect(symbols[0]).toHaveProperty("location");
    const position = { line: 4, character: 6 };
    const hover = await self.connection.sendRequest<{ contents: object }>("textDocument/hover", {
      textDocument,
      position,
    });
    expect(hover.contents).toMatchObject({ kind: "plaintext", value: expect.stringContaining("392.0 Hz") });
  });
});

describe("settings", () => {
  it("that are invalid are named in the log, and the others are used", async () => {
    const self = await client(PULLING);
    self.open(WHISTLE);
    self.settings = { tolerance: "much", codeLens: { enabled: false } };
    await self.connection.sendNotification("workspace/didChangeConfiguration", { settings: null });
    await until(() => self.refreshes > 0);
    expect(self.logged.filter((line) => line.includes("borewright.tolerance"))).toHaveLength(1);
    expect(await lenses(self)).toEqual([]);
  });

  it("are taken from the notification where the client cannot be asked", async () => {
    const self = await client({});
    self.open(WHISTLE);
    expect(await lenses(self)).not.toEqual([]);
    const settings = { borewright: { codeLens: { enabled: false } } };
    await self.connection.sendNotification("workspace/didChangeConfiguration", { settings });
    expect(await lenses(self)).toEqual([]);
  });

  it("of air reach the summary", async () => {
    const self = await client({});
    self.open(WHISTLE.replace("temperature: 22, ", ""));
    await self.connection.sendNotification("workspace/didChangeConfiguration", { settings: { airTemperature: 31 } });
    expect((await lenses(self))[0]?.command.title).toContain("31 °C");
  });
});

describe("unusable files", () => {
  it.each(["\u0000\u0001", "{", "a: [b: {c", "- ".repeat(500), "&a [*a]", `x: ${"[".repeat(300)}`, "%YAML 9\n---\n"])(
    "%j: every request is answered, and nothing is logged",
    async (text) => {
      const self = await client(PULLING);
      self.open(text);
      const position = { line: 0, character: 1 };
      const range = { start: position, end: position };
      const more = { position, range, context: { diagnostics: [] } };
      for (const method of [
        "hover",
        "inlayHint",
        "codeLens",
        "documentSymbol",
        "foldingRange",
        "completion",
        "codeAction",
      ]) {
        await self.connection.sendRequest(`textDocument/${method}`, { textDocument, ...more });
      }
      await pulled(self);
      self.change(WHISTLE, 2);
      expect(await lenses(self)).not.toEqual([]);
      expect(self.logged).toEqual([]);
    },
  );

  it("a file that was never opened has no answers", async () => {
    const self = await client(PULLING);
    expect(await lenses(self)).toEqual([]);
    expect(await pulled(self)).toEqual([]);
  });
});

describe("our own requests", () => {
  it("list the instruments of a file and preview each way of rekeying", async () => {
    const self = await client(PULLING);
    self.open(`${WHISTLE}---\n${WHISTLE.replace("key: G4", "key: A4")}`);
    const instruments = await self.connection.sendRequest<object[]>("borewright/instruments", { uri: URI });
    expect(instruments).toMatchObject([
      { documentIndex: 0, name: "Test whistle", key: "G4" },
      { documentIndex: 1, key: "A4" },
    ]);
    const question = { uri: URI, documentIndex: 1, note: "G4" };
    const previews = await self.connection.sendRequest<{ by: string }[]>("borewright/rekeyPreview", question);
    expect(previews.map(({ by }) => by)).toEqual(expect.arrayContaining(["print-scale", "redraw"]));
    for (const preview of previews)
      expect(preview).toMatchObject({ possible: true, outcome: expect.stringMatching(/^(?!A4 to G4).*worst note/) });
  });

  it("answer with a reason where something is wrong, and with nothing for nonsense", async () => {
    const self = await client(PULLING);
    self.open("borewright: 1\n");
    const previews = await self.connection.sendRequest<object[]>("borewright/rekeyPreview", { uri: URI, note: "G4" });
    for (const preview of previews)
      expect(preview).toMatchObject({ possible: false, outcome: expect.stringMatching(/\w/) });
    const wrong = self.connection.sendRequest("borewright/instruments", { wrong: true });
    await expect(wrong).rejects.toMatchObject({ code: -32602 }); // InvalidParams
  });
});
