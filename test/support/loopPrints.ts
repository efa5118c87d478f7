/** One instrument made as a solid, printed, played, heard, calibrated, retuned and printed again, by the program itself. */
import { spawnSync } from "node:child_process";
import { mkdtempSync, readFileSync, rmSync, writeFileSync } from "node:fs";
import { tmpdir } from "node:os";
import { join, resolve } from "node:path";
import { syntaxOf } from "../../server/src/document/read.js";
import { synthesise, wav } from "../sound/synthesis.js";
import { documentOf, fileOf } from "./designs.js";
import { measuredBack } from "./measuredBack.js";
import { USUAL, Workshop } from "./workshop.js";

/** Cents. */
export const RIGHT = 5;
const PROGRAM = resolve("dist/cli.cjs");
/** One printer's prints scatter less than printers do; its systematic part is not known to the design. */
export const HOW = { ...USUAL, diameter: 0.05, place: 0.05, undersize: 0.1, shrinkage: 0.15 };
const RATE = 22_050;

function run(folder: string, ...args: string[]): void {
  const { status, stderr } = spawnSync(process.execPath, [PROGRAM, ...args], { cwd: folder, encoding: "utf8" });
  // 1: notes in question are left out, or something is still out of tune.
  if (status !== 0 && status !== 1) throw new Error(`borewright ${args.join(" ")}: ${stderr}`);
}

/** Cents of the farthest note of each print, the first as designed, until one is within `RIGHT`. @param name of an example */
export async function prints(name: string, seed: number, most: number): Promise<readonly number[]> {
  const folder = mkdtempSync(join(tmpdir(), "borewright-loop-"));
  const take = join(folder, "take.wav");
  // Each print's drawing keeps its measured notes, so that later ones are corrected by all of them.
  const drawing = (print: number) => `${print + 1}-${name}`;
  const workshop = new Workshop(seed, HOW);
  const worst: number[] = [];
  try {
    writeFileSync(join(folder, drawing(0)), readFileSync(`examples/${name}`));
    for (let print = 0; print < most; print++) {
      const design = drawing(print);
      const drawn = documentOf(fileOf(readFileSync(join(folder, design), "utf8"), syntaxOf(name)));
      // The printer has the mesh and nothing else: what is printed is what can be measured on it.
      const { data } = await measuredBack(drawn.resolution);
      const document = documentOf(fileOf(JSON.stringify(data), "json"));
      worst.push(Math.max(...workshop.truly(document).map((cents) => Math.abs(cents ?? Number.POSITIVE_INFINITY))));
      if ((worst.at(-1) ?? 0) <= RIGHT || print === most - 1) break;
      const { hz, read } = workshop.plays(document);
      const sound = synthesise(
        hz.map((each) => ({ hz: each, seconds: 0.6, rest: 0.2 })),
        { noise: 0.01, rate: RATE, seed: seed + print },
      );
      writeFileSync(take, wav(sound, "s16le", RATE));
      run(folder, "listen", take, "--design", design, "--temperature", read.toFixed(1), "--write", "--replace");
      const earlier = Array.from({ length: print }, (_, i) => ["--earlier", drawing(i)]).flat();
      run(folder, "correct", design, ...earlier, "-o", drawing(print + 1));
      workshop.reprint();
    }
    return worst;
  } finally {
    rmSync(folder, { recursive: true });
  }
}
