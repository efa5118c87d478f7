/**
 * A maker's long day, at once: a thousand files open in one server from morning to evening, edited one after the other, hints asked for
 * after most edits, findings and hovers now and then. Prints the heap on the way: it must not grow from the first hour to the last.
 */
import { setFlagsFromString } from "node:v8";
import { runInNewContext } from "node:vm";
import { drawnDesign, FAMILIES } from "./drawnDesign.js";
import { Editor } from "./editor.js";
import { Random } from "./random.js";
import { written } from "./written.js";

const FILES = 1000;
/** Twenty working hours of a thousand edits. */
export const DAY = 20_000;
const PRINTED = 20;
/** What a heap that has settled may still differ by, MiB. */
const SLACK = 6;

/** @returns what was found wrong */
export async function aDay(edits: number, seed: number): Promise<readonly string[]> {
  setFlagsFromString("--expose-gc");
  const collect = runInNewContext("gc") as () => void;
  const random = new Random(seed);
  const server = await Editor.start();
  const files = Array.from({ length: FILES }, (_, i) => {
    const { file, text } = written(drawnDesign(random, FAMILIES[i % FAMILIES.length] ?? "duct"), random);
    return { uri: `file:///day/${i}/${file}`, text, version: 1 };
  });
  for (const { uri, text } of files) server.open(uri, text);
  const heaps: number[] = [];
  const begun = performance.now();
  for (let edit = 1; edit <= edits; edit++) {
    const file = random.pick(files);
    await edited(server, file, random);
    if (edit % Math.ceil(edits / PRINTED) > 0 && edit !== edits) continue;
    for (let round = 0; round < 3; round++) {
      collect();
      await new Promise((resolve) => setTimeout(resolve, 20)); // what waits for a turn of the event loop lets go
    }
    const { heapUsed, external } = process.memoryUsage();
    heaps.push((heapUsed + external) / 2 ** 20);
    const seconds = (performance.now() - begun) / 1000;
    console.log(
      `${edit} edits, ${FILES} files open: heap and what lies outside it ${heaps.at(-1)?.toFixed(1)} MiB, ${seconds.toFixed(0)} s`,
    );
  }
  const failures = server.failures().map(({ rule, detail }) => `${rule}: ${detail}`);
  server.end();
  // By half of the day every file has been edited some times, and what is kept of each is there.
  const later = heaps.slice(heaps.length / 2);
  const growth = (later.at(-1) ?? 0) - (later[0] ?? 0);
  return growth > SLACK ? [...failures, `the heap grew by ${growth.toFixed(1)} MiB in the second half`] : failures;
}

interface Open {
  readonly uri: string;
  readonly text: string;
  version: number;
}

/** Some number of the file's first text becomes another, and the editor asks what an editor asks. */
async function edited(server: Editor, file: Open, random: Random): Promise<void> {
  const { uri, text } = file;
  const numbers = [...text.matchAll(/\d+\.\d/g)];
  const number = numbers.length === 0 ? undefined : random.pick(numbers);
  const put = number && (Number(number[0]) * random.between(0.97, 1.03)).toFixed(1);
  const now =
    number === undefined
      ? `${text}\n`
      : text.slice(0, number.index) + put + text.slice(number.index + number[0].length);
  server.change(uri, ++file.version, [{ text: now }]);
  const textDocument = { uri };
  const whole = { start: { line: 0, character: 0 }, end: { line: 999, character: 0 } };
  if (random.chance(0.5)) await server.ask("textDocument/inlayHint", { textDocument, range: whole });
  if (random.chance(0.05)) await server.ask("textDocument/diagnostic", { textDocument });
  if (random.chance(0.05)) {
    const position = { line: random.whole(0, text.split("\n").length - 1), character: random.whole(0, 12) };
    await server.ask("textDocument/hover", { textDocument, position });
  }
}
