/** Runs scripts of the developers: each is bundled like the product and run in a process of its own. They print and assert nothing. */
import { spawnSync } from "node:child_process";
import { readdirSync } from "node:fs";
import path from "node:path";
import { fileURLToPath } from "node:url";
import * as esbuild from "esbuild";

/**
 * @param {string} folderUrl folder of the scripts
 * @param {string} ending what their names end in, such as `.bench.ts`
 * @param {readonly string[]} wanted parts of names; none runs all
 * @param {boolean} headings whether each script's name is printed
 */
export async function runBundled(folderUrl, ending, wanted, headings) {
  const here = fileURLToPath(folderUrl);
  const out = path.resolve(here, "../../out", path.basename(here));
  const scripts = readdirSync(here)
    .filter((name) => name.endsWith(ending))
    .filter((name) => wanted.length === 0 || wanted.some((part) => name.includes(part)));
  await esbuild.build({
    entryPoints: scripts.map((name) => path.join(here, name)),
    outdir: out,
    outExtension: { ".js": ".cjs" },
    bundle: true,
    platform: "node",
    format: "cjs",
    target: "node20",
    mainFields: ["module", "main"],
    // Finds its WebAssembly beside itself.
    external: ["manifold-3d"],
    logLevel: "error",
  });
  for (const name of scripts) {
    if (headings) console.log(`\n== ${name}`);
    const file = path.join(out, name.replace(/\.ts$/, ".cjs"));
    const { status } = spawnSync(process.execPath, [...process.execArgv, file], { stdio: "inherit" });
    if (status !== 0) process.exitCode = 1;
  }
}
