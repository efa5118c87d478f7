/**
 * Property tests draw the same cases on every run, so that a red run means the change under test.
 * `BOREWRIGHT_SEED=<number> npm test` draws others; `npm run hostile` always does.
 */
import fc from "fast-check";

fc.configureGlobal({ seed: Number(process.env.BOREWRIGHT_SEED ?? 20_260_101) });
