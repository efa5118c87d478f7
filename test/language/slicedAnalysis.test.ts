/** One instrument's analysis, its remedies and its fixes are done in slices: other requests and cancellations are heard in between. */
import { afterEach, beforeEach, expect, it, vi } from "vitest";
import {
  CancellationTokenSource,
  CodeActionRequest,
  DocumentDiagnosticRequest,
  HoverRequest,
} from "vscode-languageserver/node";
import { Network } from "../../server/src/acoustics/network.js";
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

/** Impedances worked out in each turn of the event loop; each counts as a millisecond. */
let turns: number[] = [];
let counted = 0;
let turn: NodeJS.Immediate | undefined;
beforeEach(() => {
  counted = 0;
  turns = [];
  let inTurn = 0;
  const { impedance } = Network.prototype;
  vi.spyOn(Network.prototype, "impedance").mockImplementation(function (this: Network, ...given) {
    counted++;
    inTurn++;
    impedance.apply(this, given);
  });
  vi.spyOn(performance, "now").mockImplementation(() => counted);
  const next = () => {
    if (inTurn > 0) turns.push(inTurn);
    inTurn = 0;
    turn = setImmediate(next);
  };
  next();
});
afterEach(() => {
  if (turn !== undefined) clearImmediate(turn);
  vi.restoreAllMocks();
});

/** A slice is 8 ms; a step beyond it may take a few impedances more: to a zero, or to a dimension by one secant step. */
const MOST_IN_ONE_PIECE = 30;

it("a hover in another file is answered while an instrument of many holes is looked at, which no turn does for long", async () => {
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

it("is left in the middle when it is cancelled", async () => {
  const { connection, open } = await client(PULLING);
  open(MANY);
  const source = new CancellationTokenSource();
  const answer = connection.sendRequest(DocumentDiagnosticRequest.type, { textDocument: { uri: URI } }, source.token);
  await vi.waitUntil(() => counted > 0, { interval: 0 });
  source.cancel();
  await expect(answer).rejects.toThrow("cancelled");
  const when = counted;
  await new Promise((resolve) => setTimeout(resolve, 20));
  expect(counted).toBe(when);
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
