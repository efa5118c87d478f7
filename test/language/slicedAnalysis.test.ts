/** One instrument's analysis, its remedies and its fixes are done in slices: other requests and cancellations are heard in between. */
import { afterEach, beforeEach, expect, it, vi } from "vitest";
import {
  CancellationTokenSource,
  CodeActionRequest,
  DocumentDiagnosticRequest,
  HoverRequest,
} from "vscode-languageserver/node";
import * as work from "../../server/src/acoustics/work.js";
import { BORE_VIEW, TRY_NUMBER } from "../../server/src/protocol/boreView.js";
import { client, PULLING, URI } from "../support/client.js";
import { WHISTLE } from "../support/designs.js";

const OTHER = "file:///work/other.bore.yaml";

/** Thirty holes, each opened in turn, everything out of tune by its own amount: remedies are searched for many holes. */
const MANY = `borewright: 1
family: duct
key: C4
mouth: { window: { width: 10, cutUp: 4.5 } }
bore: [ { at: 0, diameter: 16 }, { at: 600, diameter: 16 } ]
wall: 3
holes:
${Array.from({ length: 30 }, (_, i) => `  - { name: H${i}, at: ${150 + 14 * i}, diameter: 5 }`).join("\n")}
fingerings:
${Array.from({ length: 6 }, (_, i) => `  - { degree: ${1 + i}, holes: ${"●".repeat(30 - 5 * i)}${"○".repeat(5 * i)} }`).join("\n")}
`;

function placeOf(text: string, word: string) {
  const line = text.split("\n").findIndex((each) => each.includes(word));
  return { line, character: text.split("\n")[line]?.indexOf(word) ?? 0 };
}

/** Work done in each turn of the event loop, microseconds as counted by `worked`. */
const count = { all: 0, inTurn: 0 };
const { worked } = work;

/** A slow machine, so that little work takes many slices: so many microseconds of the counted machine are a millisecond here. */
const MILLISECOND = 50;
let turns: number[] = [];
let turn: NodeJS.Immediate | undefined;
beforeEach(() => {
  Object.assign(count, { all: 0, inTurn: 0 });
  turns = [];
  vi.spyOn(work, "worked").mockImplementation((microseconds) => {
    count.all += microseconds;
    count.inTurn += microseconds;
    worked(microseconds);
  });
  vi.spyOn(performance, "now").mockImplementation(() => count.all / MILLISECOND);
  const next = () => {
    if (count.inTurn > 0) turns.push(count.inTurn / MILLISECOND);
    count.inTurn = 0;
    turn = setImmediate(next);
  };
  next();
});
afterEach(() => {
  if (turn !== undefined) clearImmediate(turn);
  vi.restoreAllMocks();
});

/** A slice is 8 ms; the step that goes beyond it may take some impedances more, of one to two milliseconds each here. */
const MOST_IN_ONE_PIECE = 40;

it("a hover in another file is answered while an instrument of many holes is analysed, in short slices", async () => {
  const { connection, open } = await client(PULLING);
  open(MANY);
  open(WHISTLE, OTHER);
  const order: string[] = [];
  const big = connection
    .sendRequest(DocumentDiagnosticRequest.type, { textDocument: { uri: URI } })
    .then((report) => order.push(`diagnostics ${report.kind}`));
  const hover = connection
    .sendRequest(HoverRequest.type, { textDocument: { uri: OTHER }, position: placeOf(WHISTLE, "key") })
    .then(() => order.push("hover"));
  await Promise.all([big, hover]);
  expect(order).toEqual(["hover", "diagnostics full"]);
  expect(turns.length).toBeGreaterThan(20);
  expect(Math.max(...turns)).toBeLessThan(MOST_IN_ONE_PIECE);
});

it("is abandoned when it is cancelled", async () => {
  const { connection, open } = await client(PULLING);
  open(MANY);
  const source = new CancellationTokenSource();
  const answer = connection.sendRequest(DocumentDiagnosticRequest.type, { textDocument: { uri: URI } }, source.token);
  await vi.waitUntil(() => count.all > 0, { interval: 0 });
  source.cancel();
  await expect(answer).rejects.toThrow("cancelled");
  const when = count.all;
  await new Promise((resolve) => setTimeout(resolve, 20));
  expect(count.all).toBe(when);
});

it("fixes are searched for in slices, too", async () => {
  const { connection, open } = await client(PULLING);
  open(MANY);
  const found = await connection.sendRequest(DocumentDiagnosticRequest.type, { textDocument: { uri: URI } });
  const ofHole = "items" in found ? found.items.find(({ data }) => data?.data?.hole !== undefined) : undefined;
  if (ofHole === undefined) throw new Error("no hole to move");
  turns = [];
  const actions = await connection.sendRequest(CodeActionRequest.type, {
    textDocument: { uri: URI },
    range: ofHole.range,
    context: { diagnostics: [] },
  });
  expect(actions?.length).toBeGreaterThan(0);
  expect(turns.length).toBeGreaterThan(1);
  expect(Math.max(...turns)).toBeLessThan(MOST_IN_ONE_PIECE);
});

const MEASURED = `${MANY}measured:\n  - { note: C4, hz: 255 }\n  - { note: D4, hz: 300, holes: ${"●".repeat(29)}○ }\n`;
const textDocument = { uri: URI };
const hoverAt = (word: string) => ({
  method: HoverRequest.method,
  params: { textDocument, position: placeOf(MEASURED, word) },
});
const actionsAt = (word: string) => {
  const start = placeOf(MEASURED, word);
  return {
    method: CodeActionRequest.method,
    params: { textDocument, range: { start, end: start }, context: { diagnostics: [] } },
  };
};
const view = { uri: URI, documentIndex: 0, version: 1 };

it.each([
  ["the hover of a fingering", hoverAt("degree: 3"), /Good to .*octave stretched/s],
  ["the hover of the design", hoverAt("family"), /Good to |worst/],
  ["the hover of a width", hoverAt("diameter: 5"), /0\.1 mm wider/],
  ["the hover of the mouth", hoverAt("mouth"), /acts like/],
  ["the hover of measured notes", hoverAt("measured"), /Best fit/],
  ["actions on the key", actionsAt("key"), /Rekey to B3 by print scale/],
  ["actions on measured notes", actionsAt("measured"), /Calibrate the mouth/],
  ["the bore view", { method: BORE_VIEW, params: view }, /centsPerMillimetre":\[-?\d/],
  [
    "a trial in the bore view",
    { method: TRY_NUMBER, params: { ...view, path: ["holes", 3, "diameter"], value: 5.5 } },
    // Bands are left out of a trial, which is drawn at each step of a drag.
    /"cents":-?\d/,
  ],
])("%s is worked out in slices", async (_, { method, params }, answered) => {
  const { connection, open } = await client(PULLING);
  open(MEASURED);
  // What all of them need is not counted.
  await connection.sendRequest(DocumentDiagnosticRequest.type, { textDocument });
  turns = [];
  const answer = await connection.sendRequest(method, params);
  expect(JSON.stringify(answer)).toMatch(answered);
  expect(turns.length).toBeGreaterThan(3);
  expect(Math.max(...turns)).toBeLessThan(MOST_IN_ONE_PIECE);
});
