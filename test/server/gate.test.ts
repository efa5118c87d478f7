/** What the protocol forbids is refused with its errors, and the server goes on. */
import { PassThrough } from "node:stream";
import fc from "fast-check";
import { afterEach, describe, expect, it } from "vitest";
import {
  createProtocolConnection,
  type ProtocolConnection,
  StreamMessageReader,
  StreamMessageWriter,
} from "vscode-languageserver/node";
import { createServerConnection } from "../../server/src/language/node/connection.js";
import { startServer } from "../../server/src/language/startServer.js";
import { type Client, client, PULLING, pulled, URI } from "../support/client.js";
import { WHISTLE } from "../support/designs.js";

/** Language Server Protocol 3.17, "Base Protocol": error codes. */
const [NOT_INITIALIZED, INVALID_REQUEST, INVALID_PARAMS] = [-32002, -32600, -32602];
const textDocument = { uri: URI };
const INITIALIZE = { processId: null, rootUri: null, capabilities: {} };

const open: ProtocolConnection[] = [];
afterEach(() => {
  for (const connection of open.splice(0)) connection.dispose();
});

/** A server to which nothing has been said yet. */
function silent(): ProtocolConnection {
  const [up, down] = [new PassThrough(), new PassThrough()];
  startServer(createServerConnection(new StreamMessageReader(up), new StreamMessageWriter(down)));
  const connection = createProtocolConnection(new StreamMessageReader(down), new StreamMessageWriter(up));
  open.push(connection);
  connection.listen();
  return connection;
}

const REQUESTS: readonly [string, object | undefined][] = [
  ["textDocument/hover", { textDocument, position: { line: 0, character: 0 } }],
  ["textDocument/codeAction", { textDocument }],
  ["borewright/instruments", textDocument],
  ["workspace/executeCommand", { command: "borewright.rekey" }],
  ["no/such/method", {}],
];

describe("a session", () => {
  it("begins with `initialize`: requests before it are refused, notifications ignored", async () => {
    const connection = silent();
    await connection.sendNotification("textDocument/didOpen", {
      textDocument: { uri: URI, languageId: "yaml", version: 1, text: WHISTLE },
    });
    for (const [method, params] of [...REQUESTS, ["shutdown", undefined] as const])
      await expect(connection.sendRequest(method, params), method).rejects.toMatchObject({ code: NOT_INITIALIZED });
    expect(await connection.sendRequest("initialize", INITIALIZE)).toHaveProperty("capabilities");
    expect(await connection.sendRequest("textDocument/foldingRange", { textDocument })).toEqual([]);
  });

  it("begins once", async () => {
    const { connection } = await client(PULLING);
    await expect(connection.sendRequest("initialize", INITIALIZE)).rejects.toMatchObject({ code: INVALID_REQUEST });
  });

  it("is over after `shutdown`", async () => {
    const self = await client(PULLING);
    self.open(WHISTLE);
    expect(await self.connection.sendRequest("shutdown")).toBeNull();
    for (const [method, params] of [...REQUESTS, ["initialize", INITIALIZE], ["shutdown", undefined]] as const)
      await expect(self.connection.sendRequest(method, params), method).rejects.toMatchObject({
        code: INVALID_REQUEST,
      });
  });

  it("has no method of ours through which others could choose a refusal", async () => {
    const { connection } = await client(PULLING);
    const refused = connection.sendRequest("borewright/refused", { code: 1, message: "" });
    await expect(refused).rejects.toMatchObject({ code: -32601 });
  });
});

const BAD_POSITIONS = [
  { line: 3 },
  { character: 3 },
  { line: 1.5, character: 0 },
  { line: 0, character: -1 },
  { line: -1, character: 0 },
  { line: "1", character: 0 },
  { line: null, character: 0 },
  [],
  7,
  null,
  undefined,
];

/** Every request that names a position or a range. */
const asking = (position: unknown): readonly [string, object][] => {
  const good = { line: 0, character: 0 };
  return [
    ["textDocument/completion", { textDocument, position }],
    ["textDocument/hover", { textDocument, position }],
    ["textDocument/inlayHint", { textDocument, range: { start: good, end: position } }],
    ["textDocument/codeAction", { textDocument, range: { start: position, end: good }, context: { diagnostics: [] } }],
  ];
};

async function isAlive(self: Client): Promise<void> {
  expect(await pulled(self)).toHaveLength(1);
}

describe("a position", () => {
  it.each(BAD_POSITIONS)("%o is refused by every request that takes one", async (position) => {
    const self = await client(PULLING);
    self.open(WHISTLE);
    for (const [method, params] of asking(position))
      await expect(self.connection.sendRequest(method, params), method).rejects.toMatchObject({ code: INVALID_PARAMS });
    await isAlive(self);
  });

  it("beyond a line or the text is answered as its end would be", async () => {
    const self = await client(PULLING);
    self.open(WHISTLE);
    const lines = WHISTLE.split("\n");
    const at = (line: number, character: number) =>
      Promise.all(
        asking({ line, character })
          .slice(0, 3)
          .map(([method, params]) => self.connection.sendRequest(method, params)),
      );
    expect(await at(9e9, 0)).toEqual(await at(lines.length - 1, 0));
    expect(await at(4, 9e9)).toEqual(await at(4, lines[4]?.length ?? 0));
  });

  it("of an invalid change leaves the text as it was", async () => {
    const self = await client(PULLING);
    self.open(WHISTLE);
    for (const change of [
      { range: { start: { line: 1 }, end: { line: 2, character: 0 } }, text: "x" },
      { range: null, text: "x" },
      { text: 7 },
    ])
      await self.connection.sendNotification("textDocument/didChange", {
        textDocument: { uri: URI, version: 2 },
        contentChanges: [change],
      });
    await isAlive(self);
    expect(self.logged.join()).toContain("textDocument/didChange was ignored");
  });

  it("of any form is answered or refused, and never holds the server", async () => {
    const self = await client(PULLING);
    self.open(WHISTLE);
    const number = fc.oneof(fc.integer(), fc.double(), fc.constantFrom(undefined, null, "1", {}));
    await fc.assert(
      fc.asyncProperty(number, number, async (line, character) => {
        for (const [method, params] of asking({ line, character }))
          await self.connection.sendRequest(method, params).catch(({ code }) => expect(code).toBe(INVALID_PARAMS));
      }),
      { seed: 44, numRuns: 25 },
    );
    await isAlive(self);
  });
});

const WRONG = [undefined, null, 7, "x", [], {}, { textDocument: null }, { textDocument: { uri: 7 } }, { uri: 7 }];
const HEEDED = [
  ..."hover completion inlayHint codeLens documentSymbol foldingRange codeAction diagnostic"
    .split(" ")
    .map((name) => `textDocument/${name}`),
  ..."codeAction/resolve workspace/executeCommand borewright/instruments borewright/rekeyPreview".split(" "),
];

describe("parameters of the wrong form", () => {
  it.each(HEEDED)("are refused by %s", async (method) => {
    const self = await client(PULLING);
    self.open(WHISTLE);
    for (const params of WRONG)
      await expect(self.connection.sendRequest(method, params), JSON.stringify(params)).rejects.toMatchObject({
        code: INVALID_PARAMS,
      });
    await isAlive(self);
  });

  it("of notifications are ignored, and nothing breaks", async () => {
    const self = await client(PULLING);
    self.open(WHISTLE);
    for (const method of ["didOpen", "didChange", "didClose"].map((name) => `textDocument/${name}`))
      for (const params of WRONG) await self.connection.sendNotification(method, params);
    await self.connection.sendNotification("workspace/didChangeConfiguration", null as never);
    await isAlive(self);
    expect(self.logged.filter((message) => !message.includes("was ignored"))).toEqual([]);
  });

  it("of `initialize` are refused, and the session can begin after", async () => {
    const connection = silent();
    for (const capabilities of [undefined, null, 7])
      await expect(connection.sendRequest("initialize", { ...INITIALIZE, capabilities })).rejects.toMatchObject({
        code: INVALID_PARAMS,
      });
    expect(await connection.sendRequest("initialize", INITIALIZE)).toHaveProperty("capabilities");
  });
});
