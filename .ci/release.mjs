/**
 * `npm run release`: both packages into out/release, and checked there as whoever gets them has them.
 *
 *   npm run release -- --draft     does not ask for a clean tree and a dated section of the changelog
 */
import { execFileSync } from "node:child_process";
import { createHash } from "node:crypto";
import { mkdirSync, readdirSync, readFileSync, rmSync, statSync, writeFileSync } from "node:fs";
import { join } from "node:path";
import { fileURLToPath } from "node:url";

const ROOT = fileURLToPath(new URL("..", import.meta.url));
const OUT = join(ROOT, "out", "release");
const draft = process.argv.includes("--draft");
const { name, version } = JSON.parse(readFileSync(join(ROOT, "package.json"), "utf8"));

const run = (command, args, cwd = ROOT) =>
  execFileSync(command, args, { cwd, encoding: "utf8", stdio: ["ignore", "pipe", "inherit"] });

function must(holds, what) {
  if (!holds) throw new Error(what);
}

function checkSources() {
  const log = readFileSync(join(ROOT, "CHANGELOG.md"), "utf8");
  must(
    new RegExp(`^## ${version.replaceAll(".", "\\.")} · \\d{4}-\\d\\d-\\d\\d$`, "m").test(log),
    `CHANGELOG.md has no section "## ${version} · YEAR-MONTH-DAY": date it, and begin a new "## Unreleased"`,
  );
  must(run("git", ["status", "--porcelain"]).trim() === "", "there are changes that are not committed");
}

function pack() {
  rmSync(OUT, { recursive: true, force: true });
  mkdirSync(OUT, { recursive: true });
  run("npm", ["pack", "--silent", "--pack-destination", OUT]); // builds first
  const vsix = join(OUT, `${name}-${version}.vsix`);
  const flags = ["--no-dependencies", "--allow-missing-repository", "--no-rewrite-relative-links", "--out", vsix];
  run("npx", ["--no-install", "vsce", "package", ...flags]);
  return { npm: join(OUT, `${name}-${version}.tgz`), vsix };
}

/** The program within does its work on a design of ours, away from here. */
function checkProgram(command, args) {
  const design = join(ROOT, "examples", "quay-whistle.bore.yaml");
  const said = (...more) => run(command, [...args, ...more], OUT);
  must(said("--version").trim() === version, `the program is not ${version}`);
  must(/^G4 +●/m.test(said("pitch", design)), "the program predicts nothing");
  must(said("compare", design, design).includes("Nothing changes."), "the program finds a change where there is none");
  // Its library lies beside the bundle, in both packages.
  const solid = join(OUT, "quay-whistle.3mf");
  must(
    said("solid", design, "-o", solid).includes("block:") && statSync(solid).size > 10_000,
    "the program makes no solid",
  );
  rmSync(solid);
}

function checkNpm(file) {
  const home = join(OUT, "npm");
  mkdirSync(home);
  writeFileSync(join(home, "package.json"), "{}");
  run("npm", ["install", "--offline", "--silent", "--no-audit", "--no-fund", file], home);
  checkProgram(join(home, "node_modules", ".bin", name), []);
  rmSync(home, { recursive: true });
}

function checkVsix(file) {
  const home = join(OUT, "vsix");
  mkdirSync(home);
  run("unzip", ["-q", file, "-d", home]);
  const within = readdirSync(join(home, "extension"), { recursive: true, encoding: "utf8" });
  const manifest = JSON.parse(readFileSync(join(home, "extension", "package.json"), "utf8"));
  for (const wanted of [manifest.icon, manifest.main, "dist/cli.cjs", "LICENSE.txt", "docs/rules/hole-overlap.md"])
    must(within.includes(wanted.replace(/^\.\//, "")), `the extension lacks ${wanted}`);
  must(
    !within.some((path) => /^(test|server|client|node_modules)\b|\.map$/.test(path)),
    "the extension has our sources",
  );
  checkProgram(process.execPath, [join(home, "extension", "dist", "cli.cjs")]);
  rmSync(home, { recursive: true });
}

if (!draft) checkSources();
const { npm, vsix } = pack();
checkNpm(npm);
checkVsix(vsix);
for (const file of [npm, vsix]) {
  const sum = createHash("sha256").update(readFileSync(file)).digest("hex");
  console.log(`${file.slice(ROOT.length)}  ${(statSync(file).size / 1e6).toFixed(2)} MB  sha256 ${sum}`);
}
