/** What a design costs by its size: holes, fingerings, and a refit; printed, never asserted. Run: npm run bench -- size */
import { performance } from "node:perf_hooks";
import { findingsOf } from "../../server/src/design/check.js";
import { analyse, analysisSteps } from "../../server/src/design/predict/analyse.js";
import { retune } from "../../server/src/design/refit/rekeyByRefit.js";
import { CannotRekey } from "../../server/src/design/rekey/rekeyResult.js";
import { readDesign } from "../../server/src/document/read.js";
import { sized } from "./sized.js";

let loop = Number.NaN;

/** Processor time, ms: what else the machine does counts little. The least of some runs. */
function report(name: string, runs: number, work: () => unknown): number {
  const times = Array.from({ length: runs }, () => {
    const begun = process.cpuUsage();
    work();
    const { user, system } = process.cpuUsage(begun);
    return (user + system) / 1e3;
  });
  const least = Math.min(...times);
  const ratio = Number.isNaN(loop) ? "" : `, ${(least / loop).toFixed(1)} loops`;
  console.log(`${name.padEnd(56)} ${least.toFixed(1)} ms${ratio}`);
  return least;
}

/** Something fixed to compare machines by, as in acoustics.bench.ts: a million square roots and divisions. */
loop = report("calibration loop", 30, () => {
  let sum = 0;
  for (let i = 1; i <= 1e6; i++) sum += 1 / Math.sqrt(i + sum * 1e-9);
  return sum;
});

function documentOf(text: string) {
  const [document] = readDesign(text, "yaml").documents;
  if (document === undefined) throw new Error("no design");
  return document;
}

for (const [holes, fingerings] of [
  [7, 16],
  [24, 25],
  [50, 50],
  [100, 50],
] as const) {
  const document = documentOf(sized(holes, fingerings));
  const { instrument } = document.resolution;
  const name = `${holes} holes, ${fingerings} fingerings`;
  report(`${name}: prediction`, holes < 50 ? 10 : 1, () => analyse(instrument));
  report(`${name}: findings with their remedies`, 1, () => findingsOf(document, analyse(instrument)));
  let longest = 0;
  const steps = analysisSteps(instrument);
  for (let done = false; !done; ) {
    const begun = performance.now();
    done = steps.next().done === true;
    longest = Math.max(longest, performance.now() - begun);
  }
  console.log(`${name}: longest step ${longest.toFixed(1)} ms`);
}

report("24 holes, 25 fingerings: retuned", 1, () => {
  try {
    return retune(readDesign(sized(24, 25), "yaml"), 0, "all");
  } catch (error) {
    if (!(error instanceof CannotRekey)) throw error;
    return console.log(`refused: ${error.message}`);
  }
});
