/**
 * Mutation testing of one folder of server/src by a random sample, see README.md.
 * npm run mutate -- FOLDER [--sample N] [--seed S] [--budget SECONDS] [--thorough] [--within PART,PART] [--only ID,ID]
 */
import { writeFileSync } from "node:fs";
import path from "node:path";
import { fileURLToPath } from "node:url";
import { parseArgs } from "node:util";
import { Random } from "../hostile/random.js";
import { typeChecker } from "./compiles.js";
import { coverageOf, testsBelow } from "./coverage.js";
import { Judge, type Judged } from "./judge.js";
import { JUDGES } from "./judges.js";
import { type Mutant, mutantsOf, mutated } from "./mutants.js";
import { report } from "./report.js";

const root = fileURLToPath(new URL("../..", import.meta.url)).replace(/\/$/, "");
const host = fileURLToPath(new URL("host.mjs", import.meta.url));

const { positionals, values } = parseArgs({
  allowPositionals: true,
  options: {
    sample: { type: "string", default: "150" },
    seed: { type: "string", default: "1" },
    budget: { type: "string", default: "20" },
    thorough: { type: "boolean", default: false },
    within: { type: "string", default: "" },
    only: { type: "string" },
  },
});
const [folder = ""] = positionals;
const judges = JUDGES[folder];
if (judges === undefined || positionals.length !== 1) {
  console.error(
    `usage: npm run mutate -- ${Object.keys(JUDGES).join("|")} [--sample 150] [--seed 1] [--budget 20] [--thorough] [--within PART,PART] [--only ID,ID]`,
  );
  process.exit(2);
}

const source = `server/src/${folder}`;
const all = await mutantsOf(root, source);
const files = testsBelow(root, judges);
const coverage = await coverageOf(root, host, all, files);
const compileError = typeChecker(root, source);
const textOf = ({ file }: Mutant) => all.texts.get(file) ?? "";

const only = values.only?.split(",").map(Number);
const parts = values.within.split(",");
const isWithin = (file: string) => parts.some((part) => file.slice(source.length).includes(part));
const candidates = all.mutants.filter(({ id, file }) => isWithin(file) && (only?.includes(id) ?? true));
const sample: Mutant[] = [];
let refused = 0;
for (const mutant of shuffled(candidates, Number(values.seed))) {
  if (sample.length === Number(values.sample)) break;
  if (compileError(mutant.file, mutated(textOf(mutant), mutant)) === undefined) sample.push(mutant);
  else refused++;
}
console.log(
  `${source}: ${all.mutants.length} mutants, ${sample.length} drawn with seed ${values.seed}; ${refused} more that do not compile`,
);

const judge = new Judge(host, { root, files }, coverage, Number(values.budget));
const judged: Judged[] = [];
let interrupted = false;
// Asked in the order they were drawn, so that a run that is cut short is a smaller sample.
process.once("SIGINT", () => {
  interrupted = true;
});
for (const mutant of sample) {
  if (interrupted) break;
  const one = await judge.judge(mutant, textOf(mutant));
  judged.push(one);
  process.stderr.write(
    `${judged.length}/${sample.length} ${mutant.file}:${mutant.line} ${one.outcome} ${one.by ?? ""}\n`,
  );
}
// A mutant that survives a budget may not survive the tests: those left out are asked, too.
for (const [at, one] of judged.entries()) {
  if (interrupted || !values.thorough) break;
  if (one.outcome !== "survived" || !one.cut) continue;
  const late = await judge.judgeLate(one.mutant, textOf(one.mutant));
  judged[at] = late;
  process.stderr.write(`beyond the budget: ${one.mutant.file}:${one.mutant.line} ${late.outcome} ${late.by ?? ""}\n`);
}
judge.close();
judged.sort((one, other) => one.mutant.id - other.mutant.id);
console.log(report(judged, all.texts));
writeFileSync(path.join(root, `out/mutate/${folder}-${values.seed}.json`), JSON.stringify(judged, undefined, 1));

function shuffled<T>(items: readonly T[], seed: number): T[] {
  const random = new Random(seed);
  const drawn = [...items];
  for (let at = drawn.length - 1; at > 0; at--) {
    const other = random.whole(0, at);
    [drawn[at], drawn[other]] = [drawn[other] as T, drawn[at] as T];
  }
  return drawn;
}
