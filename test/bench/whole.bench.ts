/** A whole analysis with all sensitivities; printed, never asserted. Goal: 25 ms warm for eight holes and thirty fingerings. */
import { performance } from "node:perf_hooks";
import { analyse } from "../../server/src/design/predict/analyse.js";
import { sensitivitiesOf } from "../../server/src/design/predict/sensitivity.js";
import { readDesign } from "../../server/src/document/read.js";
import { thirtyNotes } from "./thirtyNotes.js";

const [document] = readDesign(thirtyNotes(), "yaml").documents;
if (document === undefined) throw new Error("no design");
const { resolution } = document;

const analysis = analyse(resolution.instrument);
const found = sensitivitiesOf(resolution, analysis);
const predicted = analysis.fingerings.filter(({ predictedHz }) => predictedHz !== undefined).length;
console.log(`${analysis.fingerings.length} fingerings, ${predicted} predicted, ${found.size} numbers to turn`);

function report(name: string, work: () => unknown, runs = 100): void {
  const times = Array.from({ length: runs }, () => {
    const start = performance.now();
    work();
    return performance.now() - start;
  });
  const warm = times.slice(runs / 2).sort((a, b) => a - b);
  const at = (share: number) => (warm[Math.floor(share * (warm.length - 1))] ?? Number.NaN).toFixed(1);
  console.log(`${name.padEnd(40)} warm fastest ${at(0)} ms, median ${at(0.5)} ms, p95 ${at(0.95)} ms`);
}

report("calibration loop", () => {
  let sum = 0;
  for (let i = 1; i <= 1e6; i++) sum += 1 / Math.sqrt(i + sum * 1e-9);
  return sum;
});
report("prediction", () => analyse(resolution.instrument));
report("all sensitivities", () => sensitivitiesOf(resolution, analysis));
report("both", () => sensitivitiesOf(resolution, analyse(resolution.instrument)));
