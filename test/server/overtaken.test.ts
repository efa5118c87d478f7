/** Typing goes on while the server works: nothing is answered for an older text, nothing asked for twice. */
import { describe, expect, it } from "vitest";
import { CancellationTokenSource, type Diagnostic } from "vscode-languageserver/node";
import { client, PULLING, pulled, URI, until } from "../support/client.js";
import { WHISTLE } from "../support/designs.js";

interface Report {
  readonly kind: string;
  readonly resultId?: string;
  readonly items?: Diagnostic[];
}

const textDocument = { uri: URI };
/** Of the protocol: RequestCancelled, ContentModified, ServerCancelled. */
const [CANCELLED, MODIFIED, RETRIGGER] = [-32800, -32801, -32802];

describe("while the text changes", () => {
  it("an answer for the older one is refused, and the newer one is right", async () => {
    const self = await client(PULLING);
    self.open(WHISTLE);
    const hint = self.connection.sendRequest("textDocument/codeLens", { textDocument });
    self.change(WHISTLE.replace("key: G4", "key: A4"), 2);
    await expect(hint).rejects.toMatchObject({ code: MODIFIED });
    expect(JSON.stringify(await self.connection.sendRequest("textDocument/codeLens", { textDocument }))).toContain(
      "A4 duct",
    );
  });

  it("pulled diagnostics are to be pulled again", async () => {
    const self = await client(PULLING);
    self.open(WHISTLE);
    const report = self.connection.sendRequest("textDocument/diagnostic", { textDocument });
    self.change(`${WHISTLE}\n`, 2);
    await expect(report).rejects.toMatchObject({ code: RETRIGGER, data: { retriggerRequest: true } });
    expect(await pulled(self)).toHaveLength(1);
  });

  it("pushed diagnostics wait until the typing rests, and name the version they are of", async () => {
    const self = await client({ textDocument: { publishDiagnostics: { versionSupport: true } } });
    self.open(WHISTLE);
    await until(() => self.pushed.length === 1);
    for (let version = 2; version <= 6; version++) self.change(`${WHISTLE}${"\n".repeat(version)}`, version);
    await until(() => self.pushed.length > 1);
    await new Promise((resolve) => setTimeout(resolve, 400));
    expect(self.pushed.map((params) => (params as { version?: number }).version)).toEqual([1, 6]);
  });

  it("many cancelled requests end as such and leave the server as it was", async () => {
    const self = await client(PULLING);
    self.open(WHISTLE);
    const requests = Array.from({ length: 20 }, () => {
      const source = new CancellationTokenSource();
      const request = self.connection.sendRequest("textDocument/codeLens", { textDocument }, source.token);
      source.cancel();
      return request.then(
        () => "answered",
        ({ code }) => code,
      );
    });
    const outcomes = await Promise.all(requests);
    expect(outcomes.filter((outcome) => outcome !== CANCELLED)).toEqual([]);
    expect(await self.connection.sendRequest<unknown[]>("textDocument/codeLens", { textDocument })).not.toEqual([]);
  });
});

describe("while nothing changes", () => {
  it("the same findings are not sent again", async () => {
    const self = await client(PULLING);
    self.open(WHISTLE);
    const ask = (previousResultId?: string) =>
      self.connection.sendRequest<Report>("textDocument/diagnostic", { textDocument, previousResultId });
    const first = await ask();
    expect(await ask(first.resultId)).toEqual({ kind: "unchanged", resultId: first.resultId });
  });

  it("a file opened again with the same version number is not taken for the old one", async () => {
    const self = await client(PULLING);
    const ask = (previousResultId?: string) =>
      self.connection.sendRequest<Report>("textDocument/diagnostic", { textDocument, previousResultId });
    self.open(WHISTLE);
    const { resultId } = await ask();
    await self.connection.sendNotification("textDocument/didClose", { textDocument });
    self.open("borewright: 1\nkey: nonsense\n");
    const report = await ask(resultId);
    expect(report.kind).toBe("full");
    expect(JSON.stringify(report.items)).toContain("nonsense");
  });
});
