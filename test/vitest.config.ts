import { fileURLToPath } from "node:url";
import { defineConfig } from "vitest/config";

export default defineConfig({
  test: {
    root: fileURLToPath(new URL("..", import.meta.url)),
    include: ["test/**/*.test.ts"],
    exclude: ["test/editor/**"],
    // The library names an ESM file in `module` only, which Node itself does not read.
    server: { deps: { inline: [/@tonaljs/] } },
    setupFiles: ["test/setup.ts"],
    testTimeout: 60_000,
  },
});
