/**
 * What ten minutes of recordings cost, printed and never asserted: processor time, as so many calibration loops, and the most memory the
 * program had. The goals are 5 s and 100 MB. Needs dist/, and Linux's /proc.
 */
import { spawnSync } from "node:child_process";
import { mkdtempSync, rmSync, writeFileSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { ratioOfCents } from "../../server/src/music/cents.js";
import { type Kind, synthesise, wav } from "../sound/synthesis.js";

const NOTES = 440;
/** Equal-tempered notes of the major scale from G4, two octaves up and down: what the whistle of the examples plays, about. */
const SCALE = [0, 2, 4, 5, 7, 9, 11, 12, 14, 16, 17, 19, 21, 19, 17, 16, 14, 12, 11, 9, 7, 5, 4, 2];
const G4 = 392;
const DESIGN = ["--design", "examples/quay-whistle.bore.yaml"];
const CASES: readonly (readonly [string, Kind, number, number, readonly string[]])[] = [
  ["48 kHz, 16 bits, mono", "s16le", 48_000, 1, []],
  ["44.1 kHz, 24 bits, stereo, against a design", "s24le", 44_100, 2, DESIGN],
];
/** Tells what the process used, on its own channel, as it ends. `maxRSS` would be this process's, which holds the recording: Linux keeps it over a start. */
const TELL = `data:text/javascript,${encodeURIComponent(`
  import { readFileSync, writeSync } from "node:fs";
  process.on("exit", () => {
    const peak = /VmHWM:\\s*(\\d+)/.exec(readFileSync("/proc/self/status", "utf8"))?.[1];
    writeSync(3, peak + " " + process.resourceUsage().userCPUTime);
  });`)}`;

function used(args: readonly string[]): { readonly seconds: number; readonly megabytes: number } {
  const { output } = spawnSync(process.execPath, ["--import", TELL, "dist/cli.cjs", ...args], {
    stdio: ["ignore", "ignore", "inherit", "pipe"],
    encoding: "utf8",
  });
  const [kilobytes, microseconds] = (output[3] ?? "").split(" ").map(Number);
  return { seconds: (microseconds ?? Number.NaN) / 1e6, megabytes: (kilobytes ?? Number.NaN) / 1024 };
}

const begun = process.cpuUsage();
let sum = 0;
for (let i = 1; i <= 1e8; i++) sum += 1 / Math.sqrt(i + sum * 1e-9);
const loop = process.cpuUsage(begun).user / 1e6;
console.log(`calibration loop of 1e8: ${loop.toFixed(2)} s`);
const nothing = used(["--version"]);
console.log(`the program alone: ${nothing.seconds.toFixed(1)} s, ${nothing.megabytes.toFixed(0)} MB`);

const folder = mkdtempSync(join(tmpdir(), "borewright-bench-"));
try {
  const file = join(folder, "take.wav");
  const hz = (i: number) => G4 * ratioOfCents(100 * (SCALE[i % SCALE.length] as number));
  const plays = Array.from({ length: NOTES }, (_, i) => ({ hz: hz(i), seconds: 1.06, rest: 0.3 }));
  for (const [name, kind, rate, channels, more] of CASES) {
    writeFileSync(file, wav(synthesise(plays, { noise: 0.01, rate }), kind, rate, channels));
    const { seconds, megabytes } = used(["listen", file, ...more]);
    console.log(
      `${name}: ${seconds.toFixed(1)} s, ${(seconds / loop).toFixed(1)} loops; at most ${megabytes.toFixed(0)} MB`,
    );
  }
} finally {
  rmSync(folder, { recursive: true });
}
