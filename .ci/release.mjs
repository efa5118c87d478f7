/**
 * `npm run release`: both packages into out/release, and checked there as whoever gets them has them.
 *
 *   npm run release -- --draft             does not ask for a clean tree, a dated section of the changelog and an address
 *   npm run release -- --address https://… where the sources are published, if not where this clone came from
 *
 * The address is written into the packages only: repository, issues and home page of both, and the page that SARIF names.
 */
import { execFileSync } from "node:child_process";
import { createHash } from "node:crypto";
import { cpSync, mkdirSync, readdirSync, readFileSync, rmSync, statSync, symlinkSync, writeFileSync } from "node:fs";
import { join } from "node:path";
import { fileURLToPath } from "node:url";
import { parseArgs } from "node:util";

const ROOT = fileURLToPath(new URL("..", import.meta.url));
const OUT = join(ROOT, "out", "release");
const { draft, address = originOf(ROOT) } = parseArgs({
  options: { draft: { type: "boolean" }, address: { type: "string" } },
}).values;
const packageJson = JSON.parse(readFileSync(join(ROOT, "package.json"), "utf8"));
const { name, version } = packageJson;

const run = (command, args, cwd = ROOT) =>
  execFileSync(command, args, { cwd, encoding: "utf8", stdio: ["ignore", "pipe", "inherit"] });

/** The web address that a clone came from (https, or ssh at the same place), undefined where it is none. */
function originOf(folder) {
  const [, host, path] =
    /^(?:https:\/\/|ssh:\/\/|git@)(?:[^@/]+@)?([^:/]+)[:/](.+?)(?:\.git)?\/?$/.exec(origin(folder)) ?? [];
  return host && `https://${host}/${path}`;
}

function origin(folder) {
  try {
    return execFileSync("git", ["remote", "get-url", "origin"], {
      cwd: folder,
      encoding: "utf8",
      stdio: "pipe",
    }).trim();
  } catch {
    return "";
  }
}

function must(holds, what) {
  if (!holds) throw new Error(what);
}

function checkSources() {
  const log = readFileSync(join(ROOT, "CHANGELOG.md"), "utf8");
  must(
    new RegExp(`^## ${version.replaceAll(".", "\\.")} - \\d{4}-\\d\\d-\\d\\d$`, "m").test(log),
    `CHANGELOG.md has no section "## ${version} - YEAR-MONTH-DAY": date it, and begin a new "## Unreleased"`,
  );
  must(run("git", ["status", "--porcelain"]).trim() === "", "there are changes that are not committed");
}

/** The sources as they stand, with the address. Made from a copy, so that nothing here changes. */
function stage() {
  const folder = join(OUT, "sources");
  const kept = run("git", ["ls-files", "-z", "--cached", "--others", "--exclude-standard", "--deduplicate"]);
  for (const file of kept.split("\0").filter(Boolean))
    cpSync(join(ROOT, file), join(folder, file), { verbatimSymlinks: true });
  symlinkSync(join(ROOT, "node_modules"), join(folder, "node_modules"));
  const addresses = address && {
    homepage: address,
    repository: { type: "git", url: `${address}.git` },
    bugs: { url: `${address}/issues` },
  };
  writeFileSync(join(folder, "package.json"), JSON.stringify({ ...packageJson, ...addresses }, undefined, 2));
  return folder;
}

/** The manual page, and the page for who works on the sources. */
const OF_NO_USE_IN_AN_EDITOR = ["dist/borewright.1", "DEVELOPERS.md"];

function pack() {
  rmSync(OUT, { recursive: true, force: true });
  const folder = stage();
  run("npm", ["pack", "--silent", "--pack-destination", OUT], folder); // builds first
  const vsix = join(OUT, `${name}-${version}.vsix`);
  const manifest = JSON.parse(readFileSync(join(folder, "package.json"), "utf8"));
  const files = manifest.files.filter((file) => !OF_NO_USE_IN_AN_EDITOR.includes(file));
  writeFileSync(join(folder, "package.json"), JSON.stringify({ ...manifest, files }, undefined, 2));
  const flags = ["--no-dependencies", "--allow-missing-repository", "--no-rewrite-relative-links", "--out", vsix];
  run("npx", ["--no-install", "vsce", "package", ...flags], folder);
  rmSync(folder, { recursive: true });
  return { npm: join(OUT, `${name}-${version}.tgz`), vsix };
}

/** The program within does its work on a design of ours, away from here. */
function checkProgram(command, args) {
  const design = join(ROOT, "examples", "quay-whistle.bore.yaml");
  const said = (...more) => run(command, [...args, ...more], OUT);
  must(said("--version").trim() === version, `the program is not ${version}`);
  must(/^G4 +●/m.test(said("pitch", design)), "the program predicts nothing");
  must(said("compare", design, design).includes("Nothing changes."), "the program finds a change where there is none");
  const report = JSON.parse(said("check", design, "--format", "sarif", "--fail-on", "never"));
  must(report.runs[0].tool.driver.informationUri === address, `SARIF does not name ${address}`);
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

/** Bytes. */
const LARGEST_EXTENSION = 1.2 * 2 ** 20;

function checkVsix(file) {
  must(statSync(file).size <= LARGEST_EXTENSION, `the extension has more than ${LARGEST_EXTENSION} bytes`);
  const home = join(OUT, "vsix");
  mkdirSync(home);
  run("unzip", ["-q", file, "-d", home]);
  const within = readdirSync(join(home, "extension"), { recursive: true, encoding: "utf8" });
  const manifest = JSON.parse(readFileSync(join(home, "extension", "package.json"), "utf8"));
  must(
    (manifest.bugs?.url ?? "").startsWith(address ?? "") && manifest.homepage === address,
    `the extension does not name ${address}`,
  );
  for (const wanted of [manifest.icon, manifest.main, "dist/cli.cjs", "LICENSE.txt", "docs/rules/hole-overlap.md"])
    must(within.includes(wanted.replace(/^\.\//, "")), `the extension lacks ${wanted}`);
  must(
    !within.some((path) => /^(test|server|client|node_modules)\b|\.map$/.test(path)),
    "the extension has our sources",
  );
  checkProgram(process.execPath, [join(home, "extension", "dist", "cli.cjs")]);
  rmSync(home, { recursive: true });
}

if (!draft) {
  checkSources();
  must(address, "say where the sources are published: --address https://…, for this clone came from no web address");
}
const { npm, vsix } = pack();
checkNpm(npm);
checkVsix(vsix);
for (const file of [npm, vsix]) {
  const sum = createHash("sha256").update(readFileSync(file)).digest("hex");
  console.log(`${file.slice(ROOT.length)}  ${(statSync(file).size / 1e6).toFixed(2)} MB  sha256 ${sum}`);
}
