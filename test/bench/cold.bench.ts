/** What a user waits for at the prompt, and how large the download is. Needs dist/ (and the .vsix for its size). */
import { spawnSync } from "node:child_process";
import { readdirSync, statSync } from "node:fs";

const RUNS = 7;

function medianMs(args: readonly string[]): number {
  const times = Array.from({ length: RUNS }, () => {
    const begun = performance.now();
    spawnSync(process.execPath, args);
    return performance.now() - begun;
  }).sort((a, b) => a - b);
  return times[(RUNS - 1) / 2] ?? Number.NaN;
}

const empty = medianMs(["-e", ""]);
console.log(`node alone                 ${empty.toFixed(0)} ms`);
for (const args of [
  ["dist/cli.cjs", "--version"],
  ["dist/cli.cjs", "pitch", "examples/quay-whistle.bore.yaml"],
  ["dist/cli.cjs", "check", "examples"],
  ["dist/cli.cjs", "rekey", "examples/quay-whistle.bore.yaml", "--to", "F4", "--by", "redraw"],
]) {
  const time = medianMs(args);
  console.log(
    `${args.slice(1, 3).join(" ").padEnd(46)} ${time.toFixed(0)} ms, ${(time / empty).toFixed(1)} times node alone`,
  );
}
for (const name of readdirSync(".").filter((each) => each.endsWith(".vsix")))
  console.log(`${name}: ${(statSync(name).size / 1024).toFixed(0)} KiB`);
