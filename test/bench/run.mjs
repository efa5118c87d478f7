/** Runs the benchmarks: each is bundled like the product and run in a process of its own. They print and assert nothing. */
import { spawnSync } from "node:child_process";
import { readdirSync } from "node:fs";
import path from "node:path";
import { fileURLToPath } from "node:url";
import * as esbuild from "esbuild";

const here = fileURLToPath(new URL(".", import.meta.url));
const out = path.resolve(here, "../../out/bench");
const wanted = process.argv.slice(2);
const benches = readdirSync(here)
  .filter((name) => name.endsWith(".bench.ts"))
  .filter((name) => wanted.length === 0 || wanted.some((part) => name.includes(part)));

await esbuild.build({
  entryPoints: benches.map((name) => path.join(here, name)),
  outdir: out,
  outExtension: { ".js": ".cjs" },
  bundle: true,
  platform: "node",
  format: "cjs",
  target: "node20",
  mainFields: ["module", "main"],
  logLevel: "error",
});
for (const name of benches) {
  console.log(`\n== ${name}`);
  const { status } = spawnSync(process.execPath, [path.join(out, name.replace(/\.ts$/, ".cjs"))], { stdio: "inherit" });
  if (status !== 0) process.exitCode = 1;
}
