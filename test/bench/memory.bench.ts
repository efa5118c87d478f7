/**
 * Whether memory stays flat: the heap after garbage collection while ten thousand different designs are read and
 * analysed, as by ten thousand keystrokes. Printed, never asserted.
 */

import { setFlagsFromString } from "node:v8";
import { runInNewContext } from "node:vm";
import { drained } from "../../server/src/acoustics/steps.js";
import { clientFeatures } from "../../server/src/language/capabilities.js";
import { Designs } from "../../server/src/language/designs.js";
import { diagnostics } from "../../server/src/language/diagnostics.js";
import { inlayHints } from "../../server/src/language/inlayHints.js";
import { INITIAL_SETTINGS } from "../../server/src/language/settings.js";
import { thirtyNotes } from "./thirtyNotes.js";

// So that the bench needs no flag of its own: V8 takes this one at run time too.
setFlagsFromString("--expose-gc");
const collect = runInNewContext("gc") as () => void;

const KEYSTROKES = 10_000;
const PRINTED_AT = new Set([100, 1000, 2000, 4000, 6000, 8000, KEYSTROKES]);
/** Never the same number twice. */
const text = (n: number) => thirtyNotes(n / KEYSTROKES);
/** Diagnostics, with their trials of other hole places, cost several analyses: made of one version in so many. */
const DIAGNOSED_EACH = 50;

const client = clientFeatures({ capabilities: {} } as never);
const designs = new Designs(
  () => INITIAL_SETTINGS,
  () => client,
);

const started = performance.now();
for (let n = 1; n <= KEYSTROKES; n++) {
  const uri = `file:///bench/${n % 3}.bore.yaml`;
  const design = drained(designs.open({ uri, version: n, getText: () => text(n) }));
  if (design === undefined) throw new Error("no design");
  if (n % DIAGNOSED_EACH === 0) diagnostics(design);
  inlayHints(design);
  if (n % 7 === 0) designs.close(uri);
  if (!PRINTED_AT.has(n)) continue;
  collect();
  const { heapUsed, external } = process.memoryUsage();
  const seconds = ((performance.now() - started) / 1000).toFixed(0);
  console.log(
    `${String(n).padStart(6)} analyses   heap ${(heapUsed / 2 ** 20).toFixed(2)} MiB   outside it ${(external / 2 ** 20).toFixed(2)} MiB   ${seconds} s`,
  );
}
