/** Work asked for on one document never reaches another, be it the same file closed and opened again at the same version. */
import { describe, expect, it } from "vitest";
import type { CodeAction } from "vscode-languageserver/node";
import type { Outcome } from "../../server/src/language/longWork/job.js";
import type { LongWork } from "../../server/src/language/longWork/longWork.js";
import { type Client, client, PULLING, pulled, URI, until } from "../support/client.js";
import { WHISTLE } from "../support/designs.js";
import { titled } from "../support/language.js";

const textDocument = { uri: URI };
/** Of the protocol: ContentModified; RequestFailed. */
const MODIFIED = -32801;
const OTHER = WHISTLE.replace("# harbour workshop", "# another design").replace("key: G4", "key: D5");

/** Long work that ends when it is let: with one edit at the beginning of the text. */
function held() {
  const asked: (() => void)[] = [];
  const outcome: Outcome = {
    edits: [{ span: { start: 2, end: 9 }, text: "C4" }],
    from: "G4",
    to: "A4",
    message: "",
    says: [],
    made: [],
    followed: [],
    outOfTune: 0,
  };
  // It ignores `shouldStop`: the answer comes, and must be dropped.
  const run = () => new Promise<Outcome>((resolve) => asked.push(() => resolve(outcome)));
  const longWork = { run } as LongWork;
  return { longWork, asked };
}

async function reopened(self: Client): Promise<void> {
  await self.connection.sendNotification("textDocument/didClose", { textDocument });
  self.open(OTHER);
  // Answered only once the server has the new text.
  await self.connection.sendRequest("textDocument/foldingRange", { textDocument });
}

async function refitAction(self: Client): Promise<CodeAction> {
  const line = WHISTLE.split("\n").findIndex((each) => each.startsWith("key:"));
  const range = { start: { line, character: 5 }, end: { line, character: 5 } };
  const params = { textDocument, range, context: { diagnostics: [] } };
  return titled(await self.connection.sendRequest("textDocument/codeAction", params), /^Refit to A4/);
}

describe("a file closed and opened again with another text at the same version", () => {
  it("gets no edit that was worked out for the one before", async () => {
    const { longWork, asked } = held();
    const self = await client(PULLING, { longWork });
    self.open(WHISTLE);
    const resolving = self.connection.sendRequest("codeAction/resolve", await refitAction(self));
    const refused = expect(resolving).rejects.toMatchObject({ code: MODIFIED });
    await until(() => asked.length === 1);
    await reopened(self);
    asked[0]?.();
    await refused;
  });

  it("is not changed by a command that was given before", async () => {
    const { longWork, asked } = held();
    const self = await client(PULLING, { longWork });
    self.open(WHISTLE);
    const command = { command: "borewright.rekey", arguments: [{ uri: URI, note: "A4", by: "refit" }] };
    const refused = expect(self.connection.sendRequest("workspace/executeCommand", command)).rejects.toMatchObject({
      code: MODIFIED,
    });
    await until(() => asked.length === 1);
    await reopened(self);
    asked[0]?.();
    await refused;
    expect(self.applied).toEqual([]);
  });

  it("gives no edit to an action that was offered for the one before", async () => {
    const { longWork, asked } = held();
    const self = await client(PULLING, { longWork });
    self.open(WHISTLE);
    const action = await refitAction(self);
    await reopened(self);
    expect(await self.connection.sendRequest("codeAction/resolve", action)).not.toHaveProperty("edit");
    expect(asked).toEqual([]);
  });

  it("is read again, also where it was never closed, and has findings of its own", async () => {
    const self = await client(PULLING);
    self.open(WHISTLE);
    const before = await pulled(self);
    self.open(OTHER);
    const after = await pulled(self);
    expect(before.map(({ message }) => message).join()).not.toContain("flat, closer to G4");
    expect(after.map(({ message }) => message).join()).toContain("it sounds about G4, not D5");
  });
});
