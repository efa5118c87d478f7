/** A design beside an older text of it: hints that say the change, and a page that says it note by note. */
import { describe, expect, it } from "vitest";
import type { InlayHint } from "vscode-languageserver/node";
import { type Client, client, PULLING, URI } from "../support/client.js";
import { WHISTLE } from "../support/designs.js";
import { hintText } from "../support/language.js";

const MENDED = WHISTLE.replace("at: 210.3", "at: 205.3");
const OLD = { name: "whistle.bore.yaml", text: MENDED, since: "since the last commit" };

async function hints({ connection }: Client): Promise<string[]> {
  const range = { start: { line: 0, character: 0 }, end: { line: 99, character: 0 } };
  const found = await connection.sendRequest<InlayHint[]>("textDocument/inlayHint", {
    textDocument: { uri: URI },
    range,
  });
  return found.map(hintText);
}

describe("hints beside an older text", () => {
  it("say how each note changed, until the older text is gone", async () => {
    const self = await client(PULLING);
    self.open(WHISTLE);
    const alone = await hints(self);
    expect(alone.join()).not.toContain("since");
    await self.connection.sendNotification("borewright/beside", { uri: URI, old: OLD });
    const beside = await hints(self);
    expect(beside.some((hint) => /^E5 [+−]?\d+ → −\d+, flat · since the last commit$/.test(hint))).toBe(true);
    // `editor.inlayHints.maximumLength` is 43 by itself (VS Code's settings reference).
    expect(Math.max(...beside.filter((hint) => hint.includes("since")).map((hint) => hint.length))).toBeLessThanOrEqual(
      43,
    );
    // Notes below the hole that moved hardly change, and are not remarked.
    expect(beside.filter((hint) => hint.includes("since")).length).toBeLessThan(7);
    await self.connection.sendNotification("borewright/beside", { uri: URI });
    expect(await hints(self)).toEqual(alone);
  });

  it("stay as they were where the older text is not a design", async () => {
    const self = await client(PULLING);
    self.open(WHISTLE);
    const alone = await hints(self);
    for (const text of ["", "[", "holes: 3"]) {
      await self.connection.sendNotification("borewright/beside", { uri: URI, old: { ...OLD, text } });
      expect(await hints(self)).toEqual(alone);
    }
  });
});

describe("the comparison on request", () => {
  it("is the page of the comparison, unfolded", async () => {
    const self = await client(PULLING);
    self.open(WHISTLE);
    const answer = await self.connection.sendRequest<{ markdown: string }>("borewright/compare", {
      uri: URI,
      old: OLD,
    });
    expect(answer.markdown).toMatch(/^# Comparison\n\n\*\*`Test whistle`\*\* ⚠ .*left the tolerance/);
    expect(answer.markdown).toContain("<details open>");
    expect(answer.markdown).toContain("`at of L2`: `205.3 → 210.3 mm (+5)`");
  });

  it("is empty where no text is sent", async () => {
    const self = await client(PULLING);
    self.open(WHISTLE);
    expect(await self.connection.sendRequest("borewright/compare", { uri: URI })).toBeNull();
  });
});
