/** Runs the benchmarks, all or those named. They print and assert nothing. */
import { runBundled } from "../support/runBundled.mjs";

await runBundled(new URL(".", import.meta.url), ".bench.ts", process.argv.slice(2), true);
