/** Bundles the mutation tester and runs it. Arguments: see main.ts. */
import { spawnSync } from "node:child_process";
import { fileURLToPath } from "node:url";
import * as esbuild from "esbuild";

const [root, out] = ["../..", "../../out/mutate"].map((path) => fileURLToPath(new URL(path, import.meta.url)));
await esbuild.build({
  entryPoints: ["main.ts", "host.ts"].map((name) => fileURLToPath(new URL(name, import.meta.url))),
  outdir: out,
  outExtension: { ".js": ".mjs" },
  bundle: true,
  packages: "external",
  platform: "node",
  format: "esm",
  target: "node20",
  logLevel: "error",
});
// The main process reports what it has.
process.on("SIGINT", () => {});
const { status } = spawnSync(process.execPath, [`${out}/main.mjs`, ...process.argv.slice(2)], {
  cwd: root,
  stdio: "inherit",
});
process.exitCode = status ?? 1;
