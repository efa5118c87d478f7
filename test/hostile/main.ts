/**
 * `npm run hostile -- [--minutes 2] [--seed 1] [--kind documents]… [--endurance]`, or `--case FILE…`: tries what nobody
 * should do to the program, and fails where anything gives way. The last line counts the cases. `--day [--edits 20000]` is one long
 * day in one server with a thousand files open, and prints the heap on the way.
 */
import { parseArgs } from "node:util";
import { faultsOfFile } from "./caseFile.js";
import { type Order, tryCases } from "./child.js";
import { aDay, DAY } from "./day.js";
import { KINDS } from "./kinds/index.js";
import { Report } from "./report.js";
import { watched } from "./watch.js";

/** What continuous integration gives it. */
const MINUTES = 2;

async function main(): Promise<void> {
  const { values } = parseArgs({
    options: {
      minutes: { type: "string", default: String(MINUTES) },
      seed: { type: "string", default: process.env.BOREWRIGHT_SEED ?? String(Date.now() % 1e6) },
      kind: { type: "string", multiple: true },
      endurance: { type: "boolean" },
      case: { type: "string", multiple: true },
      day: { type: "boolean" },
      edits: { type: "string", default: String(DAY) },
    },
  });
  if (values.case !== undefined) return tryAgain(values.case);
  const [minutes, seed] = [Number(values.minutes), Number(values.seed)];
  if (!(minutes > 0) || !Number.isInteger(seed))
    throw new Error("--minutes wants a number above 0, --seed a whole number");
  if (values.day) return oneDay(Number(values.edits), seed);
  const names = values.endurance ? ["endurance"] : (values.kind ?? KINDS.map(({ name }) => name));
  const unknown = names.filter((name) => !KINDS.some((kind) => kind.name === name));
  if (unknown.length > 0)
    throw new Error(`no kind ${unknown.join(", ")}: there are ${KINDS.map(({ name }) => name).join(", ")}`);
  const kinds = KINDS.filter(({ name }) => names.includes(name));
  const shares = kinds.reduce((sum, { share }) => sum + share, 0);
  console.log(`hostile: ${minutes} minutes, seed ${seed}`);
  const report = new Report();
  for (const { name, share } of kinds)
    await watched({ kind: name, seed, milliseconds: (minutes * 60_000 * share) / shares }, report);
  report.close();
}

async function oneDay(edits: number, seed: number): Promise<void> {
  console.log(`hostile: a day of ${edits} edits, seed ${seed}`);
  const faults = await aDay(edits, seed);
  for (const fault of faults) console.log(fault);
  process.exit(faults.length > 0 ? 1 : 0);
}

/** Tries cases kept in files, each once. */
async function tryAgain(files: readonly string[]): Promise<void> {
  let failed = 0;
  for (const file of files) {
    const faults = await faultsOfFile(file);
    console.log(`${file}: ${faults.length === 0 ? "sound" : ""}`);
    for (const { rule, detail } of faults) console.log(`  ${rule}: ${detail.replaceAll("\n", "\n    ")}`);
    if (faults.length > 0) failed++;
  }
  console.log(`\n${files.length - failed} passed, ${failed} failed (${files.length} tried)`);
  process.exit(failed > 0 ? 1 : 0);
}

const order = process.env.BOREWRIGHT_HOSTILE_ORDER;
if (order !== undefined) void tryCases(JSON.parse(order) as Order);
else void main();
