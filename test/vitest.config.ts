import { readdirSync, readFileSync } from "node:fs";
import { fileURLToPath } from "node:url";
import { defineConfig } from "vitest/config";
import { SlowFirst } from "./slowFirst.js";

const root = fileURLToPath(new URL("..", import.meta.url));

/** Files that replace modules of the product: what they replace must not reach the files after them. */
const mocking = readdirSync(`${root}test`, { recursive: true, encoding: "utf8" })
  .filter((file) => file.endsWith(".test.ts"))
  .filter((file) => /\bvi\.(do)?mock\(/i.test(readFileSync(`${root}test/${file}`, "utf8")))
  .map((file) => `test/${file}`);

export default defineConfig({
  // As in the bundles: the library's build for Node asks the environment at every token, which costs a fifth of the parsing.
  resolve: { alias: [{ find: /^yaml$/, replacement: `${root}node_modules/yaml/browser/index.js` }] },
  test: {
    root,
    // Without it vitest leaves a core idle, which of two is half of them.
    maxWorkers: "100%",
    // As many collectors of garbage as workers are enough: with helpers of their own they take a twentieth more.
    execArgv: ["--single-threaded-gc", "--max-semi-space-size=64"],
    // What a source becomes is kept for the next run by its content, in node_modules: making it anew costs ten seconds.
    experimental: { fsModuleCache: true },
    sequence: { sequencer: SlowFirst },
    setupFiles: ["test/setup.ts"],
    testTimeout: 60_000,
    // The library names an ESM file in `module` only, which Node itself does not read.
    server: { deps: { inline: [/@tonaljs/] } },
    projects: [
      {
        extends: true,
        // One load of the product for many files: loaded for each it takes a third of the suite's time.
        test: {
          name: "shared",
          isolate: false,
          include: ["test/**/*.test.ts"],
          exclude: ["test/editor/**", ...mocking],
        },
      },
      { extends: true, test: { name: "mocking", include: mocking } },
    ],
  },
});
