/**
 * A repository of a thousand seeded designs of all families: designs a second in one thread and by `check` on one and on all, the heap on
 * the way; and what one design costs as holes and fingerings grow. Printed, never asserted. Run: npm run build && npm run bench -- designs
 */
import { spawnSync } from "node:child_process";
import { mkdtempSync, rmSync, writeFileSync } from "node:fs";
import { availableParallelism, tmpdir } from "node:os";
import { join } from "node:path";
import { setFlagsFromString } from "node:v8";
import { runInNewContext } from "node:vm";
import { checkDocument } from "../../server/src/design/check.js";
import { analyse } from "../../server/src/design/predict/analyse.js";
import { readDesign, syntaxOf } from "../../server/src/document/read.js";
import { drawnDesign, FAMILIES } from "../hostile/drawnDesign.js";
import { Random } from "../hostile/random.js";
import { written } from "../hostile/written.js";
import { sized } from "./sized.js";

setFlagsFromString("--expose-gc");
const collect = runInNewContext("gc") as () => void;

const DESIGNS = 1000;
const PRINTED_EACH = 250;

const designs = Array.from({ length: DESIGNS }, (_, seed) => {
  const random = new Random(seed);
  return written(drawnDesign(random, FAMILIES[seed % FAMILIES.length] ?? "duct"), random);
});

/** Processor time, s. */
function spent(): number {
  const { user, system } = process.cpuUsage();
  return (user + system) / 1e6;
}

function inOneThread(): void {
  let begun = spent();
  designs.forEach(({ file, text }, i) => {
    for (const document of readDesign(text, syntaxOf(file)).documents) checkDocument(document);
    if ((i + 1) % PRINTED_EACH > 0) return;
    const seconds = spent() - begun;
    collect();
    const heap = (process.memoryUsage().heapUsed / 2 ** 20).toFixed(1);
    console.log(
      `designs ${i + 2 - PRINTED_EACH} to ${i + 1}: ${(PRINTED_EACH / seconds).toFixed(0)} a second of processor time, heap ${heap} MiB`,
    );
    begun = spent();
  });
}

/** `check` of the first files, its start included. */
function byCheck(count: number, threads: number): void {
  const folder = mkdtempSync(join(tmpdir(), "borewright-bench-"));
  try {
    designs
      .slice(0, count)
      .forEach(({ file, text }, i) => void writeFileSync(join(folder, file.replace("drawn", `design-${i}`)), text));
    const begun = performance.now();
    const args = ["dist/cli.cjs", "check", folder, "--threads", String(threads), "--format", "json"];
    spawnSync(process.execPath, args, { maxBuffer: 2 ** 28 });
    const seconds = (performance.now() - begun) / 1000;
    const name = `check of ${count} designs, ${threads} thread${threads === 1 ? "" : "s"}`;
    console.log(`${name}: ${seconds.toFixed(1)} s, ${(count / seconds).toFixed(0)} a second`);
  } finally {
    rmSync(folder, { recursive: true });
  }
}

/** One design, as many fingerings as holes. */
function growing(): void {
  let before = Number.NaN;
  for (const holes of [8, 16, 32, 64]) {
    const [document] = readDesign(sized(holes, holes), "yaml").documents;
    if (document === undefined) throw new Error("no design");
    const least = (work: () => unknown) =>
      Math.min(
        ...Array.from({ length: holes < 32 ? 5 : 2 }, () => {
          const begun = spent();
          work();
          return spent() - begun;
        }),
      );
    const prediction = least(() => analyse(document.resolution.instrument));
    const whole = least(() => checkDocument(document));
    const times = Number.isNaN(before) ? "" : `, ${(prediction / before).toFixed(1)} times the half`;
    console.log(
      `${holes} holes, ${holes} fingerings: predicted in ${prediction.toFixed(3)} s${times}; with findings ${whole.toFixed(3)} s`,
    );
    before = prediction;
  }
}

inOneThread();
for (const count of [DESIGNS / 4, DESIGNS]) byCheck(count, 1);
byCheck(DESIGNS, availableParallelism());
growing();
