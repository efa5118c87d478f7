/** Runs the reports of the developers, all or those named. */
import { runBundled } from "../support/runBundled.mjs";

await runBundled(new URL(".", import.meta.url), ".report.ts", process.argv.slice(2), false);
