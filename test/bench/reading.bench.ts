/**
 * What reading costs: the largest design that is read, shapes full of faults, and one edit among forty instruments. CPU time, least of
 * several runs; printed and never asserted. Goal: no piece of work longer than 50 ms, and the largest design in no more on the whole.
 */
import { performance } from "node:perf_hooks";
import type { Steps } from "../../server/src/acoustics/steps.js";
import type { Syntax } from "../../server/src/document/designFile.js";
import { readDesign, readingOf } from "../../server/src/document/read.js";
import { dataOf } from "../../server/src/document/treeData.js";
import { largestDesign } from "../support/largestDesign.js";

const many = (count: number, item: (i: number) => string) => Array.from({ length: count }, (_, i) => item(i)).join("");

/** Milliseconds of CPU, the collector's threads included. */
function cpuOf(work: () => unknown): number {
  const before = process.cpuUsage();
  work();
  const { user, system } = process.cpuUsage(before);
  return (user + system) / 1000;
}

/** Milliseconds of the longest piece, by the clock: on a loaded machine too long. */
function longestPiece(steps: Steps<unknown>): number {
  let longest = 0;
  for (;;) {
    const begun = performance.now();
    const { done } = steps.next();
    longest = Math.max(longest, performance.now() - begun);
    if (done) return longest;
  }
}

const least = (runs: number, work: () => number) => Math.min(...Array.from({ length: runs }, work));

function report(name: string, text: string, syntax: Syntax = "yaml"): void {
  const first = cpuOf(() => readDesign(text, syntax));
  const whole = least(15, () => cpuOf(() => readDesign(text, syntax)));
  const piece = least(15, () => longestPiece(readingOf(text, syntax)));
  const codes = new Set(readDesign(text, syntax).documents.flatMap(({ findings }) => findings.map(({ code }) => code)));
  console.log(
    `${name.padEnd(44)} ${String(text.length).padStart(7)} signs: first ${first.toFixed(0)} ms, then ${whole.toFixed(1)} ms; longest piece ${piece.toFixed(1)} ms ${codes.has("file/too-large") ? "REFUSED" : ""}`,
  );
}

const largest = largestDesign();
report("100 holes, 50 fingerings, 500 measured", largest);
report("the same in JSON", JSON.stringify(dataOf(readDesign(largest, "yaml").documents[0]?.root)), "json");
report(
  "4900 unknown keys",
  `borewright: 1\n${many(4900, (i) => `k${i}: 1\n`).slice(0, -1)}`.split("\n").slice(0, 3300).join("\n"),
);
report(
  "2400 formulas in a chain",
  `borewright: 1\nparameters:\n${many(2400, (i) => `  p${i}: =${i ? `p${i - 1}` : 1}+1\n`)}`,
);
report("2400 misspelt properties", `borewright: 1\nholes:\n${many(2400, () => "  - dimeter: 1\n")}`);
report("stray brackets", `[${"[1]: ".repeat(2400)}]`);

const one = (i: number) =>
  `---\nborewright: 1\nname: Whistle ${i}\nfamily: duct\nkey: G4\nwall: 3\nmouth:\n  window: { width: 10, cutUp: 4.5 }\nbore:\n  - { at: 0, diameter: 16 }\n  - { at: 394.6, diameter: 16 }\nholes:\n${many(7, (k) => `  - { name: L${k + 1}, at: ${160 + 27 * k + i / 10}, diameter: 7 }\n`)}fingerings:\n${many(16, (k) => `  - { degree: ${(k % 8) + 1}, holes: "${"●".repeat(7 - (k % 8))}${"○".repeat(k % 8)}", register: ${k < 8 ? 1 : 2} }\n`)}`;
const forty = many(40, one);
report("40 instruments", forty);
let before = readDesign(forty, "yaml");
let edits = 0;
const edit = least(40, () => {
  const text = forty.replace("name: Whistle 20\n", `name: Whistle 20 ${"x".repeat(++edits)}\n`);
  return cpuOf(() => {
    before = readDesign(text, "yaml", before);
  });
});
console.log(`one edit among 40 instruments: ${edit.toFixed(1)} ms`);
