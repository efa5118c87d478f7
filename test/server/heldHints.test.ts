/** Hints while the text is half typed: those of before, marked, where they were. */
import { expect, it } from "vitest";
import type { InlayHint } from "vscode-languageserver/node";
import { client, PULLING, URI } from "../support/client.js";
import { WHISTLE } from "../support/designs.js";
import { hintText } from "../support/language.js";

const ALL = { start: { line: 0, character: 0 }, end: { line: 999, character: 0 } };

async function opened() {
  const self = await client(PULLING);
  self.open(WHISTLE);
  let version = 1;
  const hints = async (text?: string, range = ALL) => {
    if (text !== undefined) self.change(text, ++version);
    const params = { textDocument: { uri: URI }, range };
    const found = await self.connection.sendRequest<InlayHint[]>("textDocument/inlayHint", params);
    const lines = (text ?? WHISTLE).split("\n");
    return found.map((hint) => ({ on: lines[hint.position.line] ?? "", label: hintText(hint) }));
  };
  return hints;
}

it.each([
  ["a bracket is open", WHISTLE.replace("holes:\n", "holes: [\n")],
  ["a number is missing", WHISTLE.replace("at: 210.3", "at: ")],
  ["a formula is half typed on a new line", WHISTLE.replace("wall: =wall\n", "# the wall\nwall: =wall +\n")],
])("stay where %s, marked, and are fresh again after", async (_, broken) => {
  const hints = await opened();
  const good = await hints();
  expect(good.length).toBeGreaterThan(10);
  const held = await hints(broken);
  expect(held.length).toBeGreaterThan(good.length - 2);
  for (const { on, label } of held.filter(({ label }) => label.endsWith("(before)"))) {
    // On the line that it was on, however many lines are above it.
    const own = good.find((each) => `${each.label} (before)` === label && (each.on === on || broken.includes(on)));
    expect(own).toBeDefined();
  }
  expect(held.some(({ label }) => label.endsWith("(before)"))).toBe(true);
  expect(await hints(WHISTLE)).toEqual(good);
});

it("stay on their own line, one each, where a bracket is still to be closed", async () => {
  const hints = await opened();
  const hole = WHISTLE.split("\n").find((line) => line.includes("name: L2")) ?? "";
  await hints();
  const held = await hints(WHISTLE.replace(hole, hole.replace(/ *\}.*$/, "")));
  expect(hole).not.toBe("");
  const onHoles = held.filter(({ label }) => label.startsWith("worst"));
  for (const { on, label } of onHoles) expect(on, label).toContain("name: ");
  expect(new Set(onHoles.map(({ on }) => on)).size).toBe(onHoles.length);
});

it.each([
  ["untitled:Untitled-1", WHISTLE, true],
  ["untitled:Untitled-1", `\n# mine\n${WHISTLE.slice(WHISTLE.indexOf("borewright:"))}`, true],
  ["untitled:Untitled-1", WHISTLE.replace("borewright: 1", "other: 1"), false],
  ["file:///notes.yaml", WHISTLE, false],
])("serve %s only where an unsaved text begins as a design", async (uri, text, isServed) => {
  const self = await client(PULLING);
  self.open(text, uri);
  const params = { textDocument: { uri }, range: ALL };
  const found = await self.connection.sendRequest<InlayHint[]>("textDocument/inlayHint", params);
  expect(found.length > 0).toBe(isServed);
});

it("are absent where nothing was good yet, and only those asked for", async () => {
  const hints = await opened();
  const first = { start: { line: 0, character: 0 }, end: { line: 18, character: 0 } };
  const few = await hints(undefined, first);
  expect(few.length).toBeGreaterThan(0);
  expect(few.length).toBeLessThan((await hints()).length);
  const self = await client(PULLING);
  self.open(WHISTLE.replace("holes:\n", "holes: [\n"));
  const params = { textDocument: { uri: URI }, range: ALL };
  const found = await self.connection.sendRequest<InlayHint[]>("textDocument/inlayHint", params);
  expect(found.filter((hint) => hintText(hint).includes("before"))).toEqual([]);
});
