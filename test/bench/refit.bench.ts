/**
 * What a refit costs, printed and never asserted. Goals, warm, by the clock on a machine with nothing else to do: for a design of eight holes
 * in two registers 250 ms to a near key and 500 ms to a far one, 20 ms for a fix of one hole. Run: npm run bench -- refit
 */
import { readFileSync } from "node:fs";
import { fixesFor } from "../../server/src/design/fix/fixHole.js";
import { analyse } from "../../server/src/design/predict/analyse.js";
import { governingHole } from "../../server/src/design/predict/governing.js";
import { retune } from "../../server/src/design/refit/rekeyByRefit.js";
import { rekey } from "../../server/src/design/rekey/rekey.js";
import { CannotRekey } from "../../server/src/design/rekey/rekeyResult.js";
import type { DesignFile } from "../../server/src/document/designFile.js";
import { readDesign, syntaxOf } from "../../server/src/document/read.js";
import { parseNote } from "../../server/src/music/note.js";
import { foundIn } from "../support/found.js";
import { EIGHT_HOLES } from "./eightHoles.js";

let loop = Number.NaN;

/** Prints the time by the clock, and the processor time, which counts collecting garbage and compiling on the side, and hardly what else the machine does. Returns the median of the latter, ms. */
function report(name: string, runs: number, work: () => unknown): number {
  const times = Array.from({ length: runs }, () => {
    const clock = performance.now();
    const begun = process.cpuUsage();
    work();
    const { user, system } = process.cpuUsage(begun);
    return { waited: performance.now() - clock, worked: (user + system) / 1e3 };
  });
  const warm = times.slice(Math.floor(runs / 3));
  const waited = sorted(warm.map((time) => time.waited));
  const worked = median(warm.map((time) => time.worked));
  const ratio = Number.isNaN(loop) ? "" : `, ${(worked / loop).toFixed(1)} loops`;
  console.log(
    `${name.padEnd(56)} first ${(times[0]?.waited ?? 0).toFixed(1)} ms, warm median ${median(waited).toFixed(1)} ms, slowest ${(waited.at(-1) ?? 0).toFixed(1)} ms; processor ${worked.toFixed(1)} ms${ratio}`,
  );
  return worked;
}

function sorted(times: readonly number[]): readonly number[] {
  return [...times].sort((a, b) => a - b);
}

function median(times: readonly number[]): number {
  return sorted(times)[Math.floor(times.length / 2)] ?? Number.NaN;
}

/** Something fixed to compare machines by, as in acoustics.bench.ts: a million square roots and divisions. */
loop = report("calibration loop", 30, () => {
  let sum = 0;
  for (let i = 1; i <= 1e6; i++) sum += 1 / Math.sqrt(i + sum * 1e-9);
  return sum;
});

/** Compiling goes on for some half a dozen. */
const RUNS = 12;

function outcome(work: () => ReturnType<typeof rekey>): string {
  try {
    const { after, obstacles } = work();
    return `worst ${Math.abs(after.summary?.worstCents ?? Number.NaN).toFixed(2)} cents${obstacles.length > 0 ? ", in the way: something" : ""}`;
  } catch (error) {
    if (error instanceof CannotRekey) return "refused";
    throw error;
  }
}

function refits(name: string, file: DesignFile, keys: readonly string[]): void {
  for (const key of keys) {
    const note = parseNote(key);
    if (note === undefined) throw new Error(key);
    const work = () => foundIn(() => rekey(file, 0, note, "refit"));
    report(`${name} to ${key} (${outcome(work)})`, RUNS, () => outcome(work));
  }
  report(`${name} retuned (${outcome(() => retune(file, 0, "all"))})`, RUNS, () => retune(file, 0, "all"));
  report(`${name} retuned by its holes`, RUNS, () => retune(file, 0, "holes"));
}

const read = (name: string) => readDesign(readFileSync(`examples/${name}`, "utf8"), syntaxOf(name));
const eight = readDesign(EIGHT_HOLES, "yaml");
refits("eight holes", eight, ["F4", "E4", "G4", "A4", "D4", "C4"]);
refits("quay whistle", read("quay-whistle.bore.yaml"), ["F4", "A4", "C5", "C4"]);
refits("ferry flute", read("ferry-flute.bore.yaml"), ["E4", "C4"]);

const document = eight.documents[0];
if (document === undefined) throw new Error("no document");
const analysis = analyse(document.resolution.instrument);
analysis.fingerings.forEach(({ fingering }, i) => {
  const hole = governingHole(fingering.covers ?? []);
  if (i < 3 || i === 12)
    report(`fixes of one hole, fingering ${i + 1}`, 40, () => fixesFor(document, analysis, hole, i));
});
