/** The page that edits the examples in a browser alone, as static files: put them on any web server. */
import { cpSync, mkdirSync, readdirSync, readFileSync, rmSync } from "node:fs";
import path from "node:path";
import { fileURLToPath } from "node:url";
import * as esbuild from "esbuild";

const ROOT = fileURLToPath(new URL("../..", import.meta.url));
/** Of dist/, what the server's worker takes. */
const OF_THE_SERVER = /^(webWorker|webServer|shared-\w+)\.js$|^manifold\./;

/** @param {string} out a folder, made anew. Needs dist/. */
export async function buildWebPage(out) {
  rmSync(out, { recursive: true, force: true });
  mkdirSync(out, { recursive: true });
  const page = path.join(ROOT, "client/page");
  await esbuild.build({
    entryPoints: { page: path.join(page, "main.ts") },
    outdir: out,
    bundle: true,
    minify: true,
    format: "iife",
    target: "chrome114",
    define: { EXAMPLE_TEXTS: JSON.stringify(exampleTexts()) },
    logLevel: "error",
  });
  cpSync(path.join(page, "index.html"), path.join(out, "index.html"));
  const dist = path.join(ROOT, "dist");
  for (const name of readdirSync(dist).filter((each) => OF_THE_SERVER.test(each)))
    cpSync(path.join(dist, name), path.join(out, name));
}

function exampleTexts() {
  const folder = path.join(ROOT, "examples");
  return Object.fromEntries(readdirSync(folder).map((name) => [name, readFileSync(path.join(folder, name), "utf8")]));
}
