/** `npm run solids`: proves the solids. Prints what it finds; fails where something does not hold. */
import { runBundled } from "../support/runBundled.mjs";

await runBundled(new URL(".", import.meta.url), ".proof.ts", process.argv.slice(2), true);
