/**
 * How long the server is held in one piece, whatever it is asked: files of all sizes, driven through a real connection; printed, never
 * asserted. Run: npm run bench -- pieces
 */
import { performance } from "node:perf_hooks";
import { Editor } from "../hostile/editor.js";
import { Held } from "./held.js";
import { sized } from "./sized.js";

const many = <T>(length: number, each: (i: number) => T) => Array.from({ length }, (_, i) => each(i));

const VESSEL = `borewright: 1
family: vessel
key: C5
mouth: { window: { width: 8, cutUp: 5 } }
vessel: { length: 120, width: 80, height: 60 }
wall: 5
holes:
${many(60, (i) => `  - { name: H${i}, diameter: ${(2 + i / 40).toFixed(2)}, angle: ${60 + i} }`).join("\n")}
fingerings:
${many(1000, (i) => `  - { degree: ${1 + (i % 7)}, holes: ${"●".repeat(60 - (i % 60))}${"○".repeat(i % 60)} }`).join("\n")}
`;

const PIPES = `borewright: 1
family: panpipe
key: C5
mouth: { cover: 0.5 }
wall: 2
pipes:
${many(100, (i) => `  - { degree: ${1 + (i % 14)}, length: ${(154 - i).toFixed(1)}, diameter: 15 }`).join("\n")}
measured:
${many(100, (i) => `  - { note: C5, hz: ${520 + i}, holes: ● }`).join("\n")}
`;

const measured = (count: number) =>
  `measured:\n${many(count, (i) => `  - { note: ${"CDEFGAB"[i % 7]}4, hz: ${(262 * 1.1 ** (i % 7)).toFixed(1)} }`).join("\n")}\n`;

const FILES: Readonly<Record<string, string>> = {
  "24 holes, 25 fingerings, 60 measured": sized(24, 25) + measured(60),
  "50 holes, 50 fingerings": sized(50, 50),
  "100 holes, 50 fingerings, 100 measured": sized(100, 50) + measured(100),
  "100 holes, 40 fingerings, 1000 stations": sized(100, 40, 1000),
  "10 holes, 600 fingerings, 700 stations": sized(10, 600, 700),
  "50 designs of 24 holes": many(50, () => sized(24, 25)).join("---\n"),
  "a vessel of 60 holes, 1000 fingerings": VESSEL,
  "100 pipes": PIPES,
};

const HOVERED = [
  "borewright",
  "key",
  "mouth",
  "width: ",
  "bore:",
  "diameter:",
  "name: H3,",
  "at: ",
  "degree: 3",
  "measured",
  "hz: ",
  "pipes",
  "wall",
];

let longest = 0;
let turn = { wall: performance.now(), spent: process.cpuUsage(), at: process.hrtime.bigint() };
let longestTurn = { from: 0n, to: 0n };
/** With BOREWRIGHT_HELD=1, what held it. */
const held = process.env.BOREWRIGHT_HELD === undefined ? undefined : new Held();
/** Of a turn of the event loop, ms: what other processes take of the machine does not count. */
function tick(): void {
  const now = { wall: performance.now(), spent: process.cpuUsage(), at: process.hrtime.bigint() };
  const spent = (now.spent.user + now.spent.system - turn.spent.user - turn.spent.system) / 1000;
  const length = Math.min(now.wall - turn.wall, spent);
  if (length > longest) {
    longest = length;
    longestTurn = { from: turn.at, to: now.at };
  }
  turn = now;
  setImmediate(tick).unref();
}
tick();

const found: { readonly ms: number; readonly what: string }[] = [];

async function measuredWork(what: string, work: () => Promise<unknown>): Promise<void> {
  held?.start();
  await new Promise(setImmediate);
  await new Promise(setImmediate);
  longest = 0;
  const begun = performance.now();
  await work().catch((error: Error) => console.log(`${what}: ${error.message}`));
  await new Promise(setImmediate);
  if (held !== undefined) console.log(`${longest.toFixed(0)} ms ${what}: ${held.stop(longestTurn).join(", ")}`);
  found.push({ ms: longest, what: `${what} (answered in ${((performance.now() - begun) / 1000).toFixed(2)} s)` });
}

async function drive(server: Editor, name: string, text: string): Promise<void> {
  const uri = `file:///bench/${encodeURIComponent(name)}.bore.yaml`;
  const lines = text.split("\n");
  const placeOf = (word: string) => {
    const line = lines.findIndex((each) => each.includes(word));
    return { line, character: (lines[line]?.indexOf(word) ?? 0) + (word.endsWith(" ") ? word.length : 1) };
  };
  const textDocument = { uri };
  const whole = { start: { line: 0, character: 0 }, end: { line: lines.length, character: 0 } };
  server.open(uri, text);
  const ask = (what: string, method: string, params: object) =>
    measuredWork(`${name}: ${what}`, () => server.ask(method, { textDocument, ...params }));
  await ask("outline", "textDocument/documentSymbol", {});
  await ask("diagnostics", "textDocument/diagnostic", {});
  await ask("inlay hints", "textDocument/inlayHint", { range: whole });
  await ask("code lenses", "textDocument/codeLens", {});
  for (const word of HOVERED.filter((each) => text.includes(each)))
    await ask(`hover of ${word}`, "textDocument/hover", { position: placeOf(word) });
  for (const word of ["key", "name: H3,", "degree: 3", "measured"].filter((each) => text.includes(each)))
    await ask(`code actions at ${word}`, "textDocument/codeAction", {
      range: { start: placeOf(word), end: placeOf(word) },
      context: { diagnostics: [] },
    });
  await ask("completion", "textDocument/completion", { position: placeOf("key") });
  await measuredWork(`${name}: instruments`, () => server.ask("borewright/instruments", { uri }));
  await measuredWork(`${name}: bore view`, () => server.ask("borewright/boreView", { uri, documentIndex: 0 }));
  const path = name.includes("pipes") ? ["pipes", 3, "length"] : ["holes", 3, "diameter"];
  await measuredWork(`${name}: a drag in the bore view`, () =>
    server.ask("borewright/tryNumber", { uri, version: 1, documentIndex: 0, path, value: 3.3 }),
  );
  const at = placeOf("wall: ");
  await measuredWork(`${name}: a key and diagnostics`, () => {
    server.change(uri, 2, [{ range: { start: at, end: { line: at.line, character: at.character + 1 } }, text: "4" }]);
    return server.ask("textDocument/diagnostic", { textDocument });
  });
  server.close(uri);
}

async function main(): Promise<void> {
  const only = process.env.BOREWRIGHT_PIECES;
  const server = await Editor.start();
  for (const [name, text] of Object.entries(FILES)) {
    if (only !== undefined && !name.includes(only)) continue;
    found.length = 0;
    await drive(server, name, text);
    const sorted = [...found].sort((a, b) => b.ms - a.ms);
    console.log(`${(Buffer.byteLength(text) / 1024).toFixed(0).padStart(5)} KiB, longest pieces:`);
    for (const { ms, what } of sorted.slice(0, 6)) console.log(`${ms.toFixed(0).padStart(6)} ms  ${what}`);
  }
  for (const { detail } of server.failures()) console.log(`failed: ${detail}`);
  server.end();
}

void main();
