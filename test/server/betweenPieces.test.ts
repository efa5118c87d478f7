/** While a large file is read, others are answered. */
import { expect, it } from "vitest";
import { client, PULLING, URI } from "../support/client.js";
import { WHISTLE } from "../support/designs.js";
import { largestDesign } from "../support/largestDesign.js";

const LARGE = "file:///work/large.bore.yaml";

it("a hover in another file is answered before the outline of a large one that was asked for first", async () => {
  const self = await client(PULLING);
  self.open(WHISTLE);
  self.open(Array.from({ length: 6 }, largestDesign).join("---\n"), LARGE);
  const answered: string[] = [];
  const ask = (method: string, uri: string, more: object) =>
    self.connection.sendRequest(method, { textDocument: { uri }, ...more }).then(() => answered.push(uri));
  await Promise.all([
    ask("textDocument/documentSymbol", LARGE, {}),
    ask("textDocument/hover", URI, { position: { line: 3, character: 1 } }),
  ]);
  expect(answered).toEqual([URI, LARGE]);
});
