/** Bundles the extension's client, the command line with the language server in it, and the bore view's page, into dist/. `--watch` rebuilds on change. */
import { execFileSync } from "node:child_process";
import { chmod, copyFile, mkdir, rm, writeFile } from "node:fs/promises";
import * as esbuild from "esbuild";
import { thirdPartyNotices } from "./thirdPartyNotices.mjs";

const watch = process.argv.includes("--watch");
const production = process.argv.includes("--production");

/** @type {esbuild.BuildOptions} */
const shared = {
  bundle: true,
  platform: "node",
  // VS Code loads extensions as CommonJS; Node 20 is what the oldest supported editor ships and what npm users run.
  format: "cjs",
  target: "node20",
  // Some libraries ship their ES module only; bundling that also lets unused code be dropped.
  mainFields: ["module", "main"],
  // The library's build for Node asks the environment at every token whether to print it, which costs a quarter of the parsing.
  alias: { yaml: "./node_modules/yaml/browser/index.js" },
  minify: production,
  sourcemap: production ? false : "linked",
  // They stand in THIRD-PARTY-NOTICES.txt.
  legalComments: "none",
  metafile: true,
  logLevel: process.argv.includes("--quiet") ? "error" : "info",
};

/** What makes solids is loaded with the first of them: a module of its own beside its WebAssembly, in no bundle. */
const SOLID_FOLDER = "node_modules/manifold-3d";
const SOLID_LIBRARY = {
  "manifold.js": "manifold.mjs",
  "manifold.wasm": "manifold.wasm",
};

/** @type {esbuild.Plugin} */
const besideTheBundle = {
  name: "solid library beside the bundle",
  setup(build) {
    build.onResolve({ filter: /^manifold-3d$/ }, () => ({ path: "./manifold.mjs", external: true }));
  },
};

/** One bundle a program. */
const bundles = [
  { ...shared, entryPoints: { client: "client/src/extension.ts" }, external: ["vscode"] },
  {
    ...shared,
    entryPoints: { cli: "server/src/cli.ts" },
    banner: { js: "#!/usr/bin/env node" },
    plugins: [besideTheBundle],
  },
].map((options) => ({ ...options, outdir: "dist", outExtension: { ".js": ".cjs" } }));

/** The bore view's page: script and style for a browser. */
bundles.push({
  ...shared,
  // The solid is loaded once it is looked at.
  entryPoints: { view: "client/view/main.tsx", solid: "client/view/solid/main.ts" },
  platform: "browser",
  format: "iife",
  target: "chrome114",
  mainFields: ["module", "main"],
  jsx: "automatic",
  jsxImportSource: "preact",
  outdir: "dist",
});

if (!watch) await rm("dist", { recursive: true, force: true });
await mkdir("dist", { recursive: true });
for (const [name, copy] of Object.entries(SOLID_LIBRARY)) await copyFile(`${SOLID_FOLDER}/${name}`, `dist/${copy}`);
if (watch) {
  const contexts = await Promise.all(bundles.map((options) => esbuild.context(options)));
  await Promise.all(contexts.map((context) => context.watch()));
} else {
  const results = await Promise.all(bundles.map((options) => esbuild.build(options)));
  await writeFile(
    "dist/THIRD-PARTY-NOTICES.txt",
    thirdPartyNotices(
      results.map(({ metafile }) => metafile),
      [SOLID_FOLDER],
    ),
  );
  await chmod("dist/cli.cjs", 0o755);
  await writeFile("dist/borewright.1", execFileSync(process.execPath, ["dist/cli.cjs", "man-page"]));
}
