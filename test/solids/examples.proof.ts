/**
 * Every example as STL and 3MF, into out/solids/: closed, in one piece, no wall thinner than the printer closes. Where Debian's
 * `admesh` and `lib3mf1` are installed, they look at the files, too: checkers that have nothing of ours.
 */
import { spawnSync } from "node:child_process";
import { mkdirSync, readdirSync, readFileSync, writeFileSync } from "node:fs";
import { join } from "node:path";
import { preflight } from "../../server/src/design/making/preflight.js";
import { readDesign, syntaxOf } from "../../server/src/document/read.js";
import { solidFiles } from "../../server/src/make/solid/files.js";
import { worstVolume } from "../support/analytic/volumes.js";
import { readStl, topology } from "../support/mesh.js";
import { isLabium, thinnestWall } from "../support/thinnestWall.js";

const OUT = "out/solids/files";
/** What the sides of polygons take of a wall, mm. */
const FACETS = 0.02;
/** Share by which a volume may differ from the analytic one. */
const VOLUME = 1e-3;
const failures: string[] = [];

async function prove(name: string): Promise<void> {
  const document = readDesign(readFileSync(join("examples", name), "utf8"), syntaxOf(name)).documents[0];
  if (document === undefined) throw new Error(`${name} holds nothing`);
  const stem = join(OUT, name.replace(/\.bore\..*/, ""));
  const started = performance.now();
  const { files, made } = await solidFiles(document, "stl", "proof");
  const took = performance.now() - started;
  const [package3mf] = (await solidFiles(document, "3mf", "proof")).files;
  if (package3mf !== undefined) writeFileSync(`${stem}.3mf`, package3mf.bytes);
  console.log(`${name}: ${files.length} parts in ${took.toFixed(0)} ms`);
  const { leastWall: least } = preflight(document.resolution);
  const { name: part, off } = worstVolume(made, least, VOLUME);
  console.log(`  volumes within ${(100 * Math.abs(off)).toFixed(3)} % of the analytic ones`);
  if (!(Math.abs(off) < VOLUME)) failures.push(`${name}: ${part} has a volume ${(100 * off).toFixed(3)} % off`);
  for (const [i, { suffix, bytes }] of files.entries()) {
    const file = `${stem}${suffix}.stl`;
    writeFileSync(file, bytes);
    const soup = readStl(bytes);
    const { pieces, openEdges, degenerate, genus } = topology(soup);
    const wall = made.parts[i]?.isSmall ? undefined : thinnestWall(soup, (at) => isLabium(made.outline, i, at));
    const repairs = admesh(file);
    console.log(
      `  ${file}: ${soup.length / 9} triangles, ${genus} handles, thinnest wall ${wall?.mm.toFixed(2) ?? "–"} mm, admesh ${repairs ?? "not installed"}`,
    );
    if (pieces !== 1 || openEdges > 0 || degenerate > 0) failures.push(`${file}: not closed or not one piece`);
    if (repairs !== undefined && repairs !== "repairs nothing") failures.push(`${file}: admesh ${repairs}`);
    if (wall !== undefined && wall.mm < least - FACETS)
      failures.push(`${file}: a wall of ${wall.mm.toFixed(2)} mm at ${wall.at.map((x) => x.toFixed(1)).join(", ")}`);
  }
}

/** What it had to do, in its own counts; undefined where it is not installed. */
function admesh(file: string): string | undefined {
  const { stdout, error } = spawnSync("admesh", [file], { encoding: "utf8" });
  if (error !== undefined) return undefined;
  const counts = [
    "Degenerate facets",
    "Edges fixed",
    "Facets removed",
    "Facets added",
    "Facets reversed",
    "Backwards edges",
  ];
  const done = counts.flatMap((what) => {
    const count = new RegExp(`${what}\\s*:\\s*(\\d+)`).exec(stdout)?.[1];
    return count === "0" ? [] : [`${what}: ${count ?? "?"}`];
  });
  const pieces = /Number of parts\s*:\s*(\d+)/.exec(stdout)?.[1];
  if (pieces !== "1") done.push(`${pieces} parts`);
  return done.length === 0 ? "repairs nothing" : done.join(", ");
}

/** Every package by lib3mf, where that is installed. */
function readStrictly(): void {
  const packages = readdirSync(OUT).filter((name) => name.endsWith(".3mf"));
  const script = join("test", "solids", "strict3mf.py");
  const files = packages.map((name) => join(OUT, name));
  const { status, stdout, stderr, error } = spawnSync("python3", [script, ...files], { encoding: "utf8" });
  if (error !== undefined || status === 3) console.log("lib3mf is not installed");
  else console.log(`lib3mf, strict:\n${stdout}${stderr}`);
  if (status === 1) failures.push("lib3mf refuses a package");
}

async function main(): Promise<void> {
  mkdirSync(OUT, { recursive: true });
  for (const name of readdirSync("examples").filter((each) => /\.bore\./.test(each))) await prove(name);
  readStrictly();
  for (const failure of failures) console.log(`FAILED ${failure}`);
  process.exitCode = failures.length === 0 ? 0 : 1;
}
void main();
