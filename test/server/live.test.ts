/** Settings that change while designs are open: what the client is asked to fetch anew, and what it then gets. */
import { describe, expect, it } from "vitest";
import type { InlayHint } from "vscode-languageserver/node";
import { type Client, client, PULLING, pulled, URI, until } from "../support/client.js";
import { WHISTLE } from "../support/designs.js";

const textDocument = { uri: URI };
const whole = { start: { line: 0, character: 0 }, end: { line: 99, character: 0 } };
const hints = (self: Client) =>
  self.connection.sendRequest<InlayHint[]>("textDocument/inlayHint", { textDocument, range: whole });

/** Names of the refresh requests that arrive, in order. */
function refreshesOf({ connection }: Client): string[] {
  const arrived: string[] = [];
  for (const method of ["workspace/diagnostic/refresh", "workspace/inlayHint/refresh", "workspace/codeLens/refresh"])
    connection.onRequest(method, () => {
      arrived.push(method);
      return null;
    });
  return arrived;
}

const REFRESHING = {
  ...PULLING,
  workspace: { ...PULLING.workspace, inlayHint: { refreshSupport: true }, codeLens: { refreshSupport: true } },
};

async function set(self: Client, settings: unknown): Promise<void> {
  self.settings = settings;
  await self.connection.sendNotification("workspace/didChangeConfiguration", { settings: null });
}

describe("a changed setting", () => {
  it("refreshes everything it touches, once, and not again where nothing has changed", async () => {
    const self = await client(REFRESHING);
    self.open(WHISTLE);
    const arrived = refreshesOf(self);
    await set(self, { tolerance: 60 });
    await until(() => arrived.length === 3);
    expect([...arrived].sort()).toEqual([
      "workspace/codeLens/refresh",
      "workspace/diagnostic/refresh",
      "workspace/inlayHint/refresh",
    ]);
    await set(self, { tolerance: 60 });
    await pulled(self);
    expect(arrived).toHaveLength(3);
  });

  it("asks only for what the client can refresh", async () => {
    const self = await client(PULLING);
    self.open(WHISTLE);
    const arrived = refreshesOf(self);
    await set(self, { tolerance: 60 });
    await until(() => arrived.length > 0);
    await hints(self);
    expect(arrived).toEqual(["workspace/diagnostic/refresh"]);
  });

  it("of the hints shows and hides them", async () => {
    const self = await client(REFRESHING);
    self.open(WHISTLE);
    const arrived = refreshesOf(self);
    const all = (await hints(self)).length;
    await set(self, { inlayHints: { fingerings: false } });
    await until(() => arrived.length === 3);
    const some = (await hints(self)).length;
    await set(self, { inlayHints: { fingerings: false, holes: false } });
    await until(() => arrived.length === 6);
    expect(all).toBeGreaterThan(some);
    expect(some).toBeGreaterThan(0);
    expect(await hints(self)).toEqual([]);
  });

  it("of the air moves the predictions of a design that does not state it, and no other", async () => {
    const self = await client(REFRESHING);
    const own = "file:///work/own.bore.yaml";
    self.open(WHISTLE.replace("temperature: 22, ", ""));
    self.open(WHISTLE, own);
    const arrived = refreshesOf(self);
    const hover = async (uri: string) => {
      const line = WHISTLE.split("\n").findIndex((text) => text.includes("degree: 2"));
      const asked = { textDocument: { uri }, position: { line, character: 8 } };
      const { contents } = await self.connection.sendRequest<{ contents: { value: string } }>(
        "textDocument/hover",
        asked,
      );
      return Number(/predicted \| (\d+\.\d) Hz/.exec(contents.value)?.[1]);
    };
    const [before, stated] = [await hover(URI), await hover(own)];
    await set(self, { airTemperature: 32 });
    await until(() => arrived.length === 3);
    // Common practice, no source: about 3 cents a degree, so some 30 for ten degrees.
    const cents = 1200 * Math.log2((await hover(URI)) / before);
    expect(cents).toBeGreaterThan(25);
    expect(cents).toBeLessThan(35);
    expect(await hover(own)).toBe(stated);
  });

  it("of the severity of findings grades them, and hides them, without a change of the text", async () => {
    const self = await client(PULLING);
    self.open(WHISTLE);
    const severity = async (level?: string) => {
      const before = self.refreshes;
      await set(self, level === undefined ? {} : { rules: { "pitch/out-of-tune": level } });
      await until(() => self.refreshes > before);
      return (await pulled(self)).map((diagnostic) => diagnostic.severity);
    };
    expect(await severity("error")).toEqual([1]);
    expect(await severity("off")).toEqual([]);
    expect(await severity()).toEqual([2]);
  });

  it("pushes the findings of every open design again to a client that cannot pull", async () => {
    const self = await client({ workspace: { configuration: true } });
    const other = "file:///work/other.bore.yaml";
    const loose = WHISTLE.replace("tolerance: 10\n", "");
    self.open(loose);
    self.open(loose, other);
    const count = (uri: string) => self.pushed.filter((params) => params.uri === uri).at(-1)?.diagnostics.length;
    await until(() => (count(URI) ?? 0) > 0 && (count(other) ?? 0) > 0);
    await set(self, { tolerance: 60 });
    await until(() => count(URI) === 0 && count(other) === 0);
  });
});
