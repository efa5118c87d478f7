/**
 * What a keystroke costs: the text read again, then its hints, or its diagnostics, as the server does it, printed and never asserted. Goal:
 * hints in 16 ms, warm, for a design of 300 lines. Beside it what follows in the editor: lenses, hover and completion. What a client waits for,
 * the stream included, is in server.bench.ts.
 */
import { performance } from "node:perf_hooks";
import { drained } from "../../server/src/acoustics/steps.js";
import { clientFeatures } from "../../server/src/language/capabilities.js";
import { codeActions } from "../../server/src/language/codeActions/index.js";
import { codeLenses } from "../../server/src/language/codeLens.js";
import { completion } from "../../server/src/language/completion/index.js";
import { Designs } from "../../server/src/language/designs.js";
import { diagnostics } from "../../server/src/language/diagnostics.js";
import { hover } from "../../server/src/language/hover/index.js";
import { inlayHints } from "../../server/src/language/inlayHints.js";
import { INITIAL_SETTINGS } from "../../server/src/language/settings.js";
import { longDesign } from "./longDesign.js";

const client = {
  ...clientFeatures({ capabilities: {} } as never),
  markdownHover: true,
  snippets: true,
  relatedInformation: true,
  resolvesCodeActions: true,
};
const settings = INITIAL_SETTINGS;
const designs = new Designs(
  () => settings,
  () => client,
);
let version = 0;
const URI = "file:///bench/long.bore.yaml";

function typed(text: string) {
  version++;
  const design = drained(designs.open({ uri: URI, version, getText: () => text }));
  if (design === undefined) throw new Error("no design");
  return design;
}

let loop: number | undefined;
/** Prints the times, and the median as a multiple of the calibration loop's; returns the median in milliseconds. */
function report(name: string, runs: number, work: (run: number) => unknown): number {
  const times = Array.from({ length: runs }, (_, run) => {
    const start = performance.now();
    work(run);
    return performance.now() - start;
  });
  const warm = times.slice(Math.floor(runs / 3)).sort((a, b) => a - b);
  const at = (share: number) => warm[Math.floor(share * (warm.length - 1))] ?? Number.NaN;
  const ratio = loop === undefined ? "" : `, ${(at(0.5) / loop).toFixed(2)} loops`;
  console.log(
    `${name.padEnd(64)} first ${(times[0] ?? 0).toFixed(1)} ms, warm fastest ${at(0).toFixed(1)} ms, median ${at(0.5).toFixed(1)} ms, p95 ${at(0.95).toFixed(1)} ms${ratio}`,
  );
  return at(0.5);
}

/** Something fixed to compare machines by, as in acoustics.bench.ts: a million square roots and divisions. */
function calibrate(): number {
  let sum = 0;
  for (let i = 1; i <= 1e6; i++) sum += 1 / Math.sqrt(i + sum * 1e-9);
  return sum;
}
loop = report("calibration loop", 30, calibrate);

/** Never the same number twice, so that nothing is remembered. */
const fresh = (run: number) => longDesign(270 + run / 97);
console.log(`design of ${fresh(0).split("\n").length} lines, 7 holes, 16 fingerings`);
report("keystroke in a dimension, badly out of tune, to its hints", 60, (run) => inlayHints(typed(fresh(run + 0.25))));
report("keystroke in a dimension, badly out of tune, to its findings", 60, (run) => diagnostics(typed(fresh(run))));
/** The same instrument with a tolerance that no note exceeds: what a keystroke costs where there is nothing to put right. */
const content = (run: number) => fresh(run + 0.5).replace("key: F#4", "key: F#4\ntolerance: 1000");
report("keystroke in a dimension, every note in tune", 60, (run) => diagnostics(typed(content(run))));
/** The holes of one fingering to and fro, in a design whose name is never the same. */
const refingered = (run: number) =>
  content(0)
    .replace("name: Long whistle", `name: Long whistle ${run}`)
    .replace("fingerings:\n", `fingerings:\n  - degree: 5\n    holes: ●●○●${"●○".charAt(run % 2)}●●\n`);
report("keystroke in one fingering, every note in tune", 60, (run) => diagnostics(typed(refingered(run))));
const still = fresh(0);
report("keystroke in a comment: read, diagnostics", 60, (run) => diagnostics(typed(`${still}# ${run}\n`)));

const design = typed(still);
diagnostics(design);
const position = design.text.positionAt(still.indexOf("at: 206"));
const range = { start: position, end: position };
report("then: inlay hints", 30, () => inlayHints(design));
report("then: lenses", 30, () => codeLenses(design));
report("then: hover on a hole's place", 30, () => hover(design, position));
report("then: completion", 30, () => completion(design, position));
report("then: code actions on a hole", 30, () => codeActions(design, { range, context: { diagnostics: [] } }));
const key = design.text.positionAt(still.indexOf("key:"));
report("then: code actions on the key, edits left for later", 30, () =>
  codeActions(design, { range: { start: key, end: key }, context: { diagnostics: [] } }),
);
