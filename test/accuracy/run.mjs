/** Bundles write.ts like the product and runs it from the project's folder. */
import { spawnSync } from "node:child_process";
import path from "node:path";
import { fileURLToPath } from "node:url";
import * as esbuild from "esbuild";

const root = fileURLToPath(new URL("../..", import.meta.url));
const outfile = path.join(root, "out/accuracy.cjs");
await esbuild.build({
  entryPoints: [path.join(root, "test/accuracy/write.ts")],
  outfile,
  bundle: true,
  platform: "node",
  format: "cjs",
  target: "node20",
  mainFields: ["module", "main"],
  logLevel: "error",
});
process.exitCode = spawnSync(process.execPath, [outfile], { cwd: root, stdio: "inherit" }).status ?? 1;
