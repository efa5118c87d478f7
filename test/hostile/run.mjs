/** Bundles the suite like the product and runs it. Arguments: see main.ts. */
import { spawnSync } from "node:child_process";
import { fileURLToPath } from "node:url";
import * as esbuild from "esbuild";

const [root, out] = ["../..", "../../out/hostile/main.cjs"].map((path) =>
  fileURLToPath(new URL(path, import.meta.url)),
);
await esbuild.build({
  entryPoints: [fileURLToPath(new URL("main.ts", import.meta.url))],
  outfile: out,
  bundle: true,
  platform: "node",
  format: "cjs",
  target: "node20",
  mainFields: ["module", "main"],
  sourcemap: "inline",
  logLevel: "error",
});
const { status } = spawnSync(process.execPath, [out, ...process.argv.slice(2)], { cwd: root, stdio: "inherit" });
process.exitCode = status ?? 1;
