/**
 * Bundles the extension's client, the command line with the language server in it, both once more for a browser, and the bore view's
 * page, into dist/. `--watch` rebuilds on change.
 */
import { execFileSync } from "node:child_process";
import { chmod, copyFile, mkdir, rm, writeFile } from "node:fs/promises";
import * as esbuild from "esbuild";
import { asScripts } from "./.ci/bundle/scripts.mjs";
import { thirdPartyNotices } from "./.ci/bundle/thirdPartyNotices.mjs";
import { shipWords } from "./.ci/bundle/words.mjs";

const watch = process.argv.includes("--watch");
const production = process.argv.includes("--production");

/** @type {esbuild.BuildOptions} */
const shared = {
  bundle: true,
  platform: "node",
  // Node 20 is what the oldest supported editor ships and what npm users run.
  target: "node20",
  // Some libraries ship their ES module only; bundling that also lets unused code be dropped.
  mainFields: ["module", "main"],
  alias: {
    // The library's build for Node asks the environment at every token whether to print it, which costs a quarter of the parsing.
    yaml: "./node_modules/yaml/browser/index.js",
    // The build for Node brings threads that nobody here starts.
    fflate: "./node_modules/fflate/esm/browser.js",
  },
  minify: production,
  sourcemap: production ? false : "linked",
  // They stand in THIRD-PARTY-NOTICES.txt.
  legalComments: "none",
  // Escapes of ● and ° cost a few kilobytes of the package.
  charset: "utf8",
  metafile: true,
  outdir: "dist",
  logLevel: process.argv.includes("--quiet") ? "error" : "info",
};

/** What makes solids is loaded with the first of them: a module of its own beside its WebAssembly, in no bundle. */
const SOLID_FOLDER = "node_modules/manifold-3d";
const SOLID_LIBRARY = {
  "manifold.js": "manifold.mjs",
  "manifold.wasm": "manifold.wasm",
};

/** Their entries for a browser, which are hidden from a build for Node. */
const FOR_BROWSERS = Object.fromEntries(
  ["vscode-languageserver", "vscode-languageserver-protocol", "vscode-jsonrpc"].map((name) => [
    `${name}/browser`,
    `./node_modules/${name}/lib/browser/main.js`,
  ]),
);

const bundles = [
  // Node's programs and the browser's server: what they have in common is there once.
  {
    ...shared,
    entryPoints: {
      client: "client/src/node/extension.ts",
      cli: "server/src/cli.ts",
      webServer: "server/src/language/browser/server.ts",
    },
    external: ["vscode"],
    alias: { ...shared.alias, ...FOR_BROWSERS },
    splitting: true,
    chunkNames: "shared-[hash]",
    plugins: [
      asScripts({
        sourcemap: !production,
        moduleBeside: { "manifold-3d": "./manifold.mjs" },
        names: { "client.js": "client.cjs", "cli.js": "cli.cjs" },
        program: "cli.cjs",
      }),
    ],
  },
  // An editor in a browser takes one script for the client, and no other beside it.
  {
    ...shared,
    entryPoints: { webClient: "client/src/browser/extension.ts" },
    external: ["vscode"],
    platform: "browser",
    format: "cjs",
    target: "chrome114",
  },
  {
    ...shared,
    entryPoints: { webWorker: "server/src/language/browser/worker.ts" },
    format: "iife",
    target: "chrome114",
  },
  // The bore view's page: script and style. The solid is loaded once it is looked at.
  {
    ...shared,
    entryPoints: { view: "client/view/main.tsx", solid: "client/view/solid/main.ts" },
    platform: "browser",
    format: "iife",
    target: "chrome114",
    jsx: "automatic",
    jsxImportSource: "preact",
  },
];

if (!watch) await rm("dist", { recursive: true, force: true });
await mkdir("dist", { recursive: true });
// The scripts are Node's older kind. Those that a browser takes, too, end in .js: by another ending a web server may not know them.
await writeFile("dist/package.json", '{ "type": "commonjs" }\n');
await shipWords("l10n", "client/src", "dist/l10n");
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
