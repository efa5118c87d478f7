/** What finding a fingering costs, printed and never asserted. Goal: 200 ms warm for a note of eight holes, in either register. */
import { drained } from "../../server/src/acoustics/steps.js";
import { findFingerings } from "../../server/src/design/fingerings/find.js";
import { chromaticNotes } from "../../server/src/design/fingerings/notes.js";
import { analyse } from "../../server/src/design/predict/analyse.js";
import { readDesign } from "../../server/src/document/read.js";
import { EIGHT_HOLES } from "./eightHoles.js";

const [document] = readDesign(EIGHT_HOLES, "yaml").documents;
if (document === undefined) throw new Error("no design");
const analysis = analyse(document.resolution.instrument);
const notes = chromaticNotes(analysis.instrument);
const options = { most: 3, halfHoles: true };

function report(name: string, runs: number, work: () => unknown): void {
  const times = Array.from({ length: runs }, () => {
    // Processor time: what else the machine does counts little.
    const begun = process.cpuUsage();
    work();
    const { user, system } = process.cpuUsage(begun);
    return (user + system) / 1e3;
  });
  const warm = times.slice(Math.floor(runs / 3)).sort((a, b) => a - b);
  const at = (share: number) => (warm[Math.floor(share * (warm.length - 1))] ?? Number.NaN).toFixed(1);
  console.log(`${name.padEnd(40)} first ${times[0]?.toFixed(1)} ms, warm median ${at(0.5)} ms, slowest ${at(1)} ms`);
}

report("calibration loop", 30, () => {
  let sum = 0;
  for (let i = 1; i <= 1e6; i++) sum += 1 / Math.sqrt(i + sum * 1e-9);
  return sum;
});
for (const note of notes.filter((_, i) => i % 4 === 1))
  report(note.name, 9, () => drained(findFingerings(analysis, [note], options)));
report(`all ${notes.length} notes`, 6, () => drained(findFingerings(analysis, notes, options)));
