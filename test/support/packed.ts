/** The npm package as whoever installs it has it: packed from what is built, installed without a network into an empty folder. */
import { execFileSync, spawnSync } from "node:child_process";
import { mkdirSync, writeFileSync } from "node:fs";
import { delimiter, join } from "node:path";

const ROOT = join(import.meta.dirname, "../..");

export interface Packed {
  /** Names of the files within. */
  readonly files: readonly string[];
  readonly tarball: string;
  /** Where it is installed. */
  readonly home: string;
  /** The package's own folder there. */
  readonly folder: string;
  /** Environment in which `borewright` is the installed one. */
  readonly env: NodeJS.ProcessEnv;
}

export function installPacked(into: string): Packed {
  const npm = (args: readonly string[], cwd: string) =>
    execFileSync("npm", [...args], { cwd, encoding: "utf8", stdio: ["ignore", "pipe", "ignore"] });
  // Without the script that rebuilds: other tests run the build at the same time.
  const report = npm(["pack", "--json", "--ignore-scripts", "--pack-destination", into], ROOT);
  const [{ filename, files }] = JSON.parse(report) as [{ filename: string; files: { path: string }[] }];
  const home = join(into, "empty");
  mkdirSync(home);
  writeFileSync(join(home, "package.json"), "{}");
  npm(["install", "--offline", "--no-audit", "--no-fund", join(into, filename)], home);
  return {
    files: files.map(({ path }) => path),
    tarball: join(into, filename),
    home,
    folder: join(home, "node_modules", "borewright"),
    env: { ...process.env, PATH: `${join(home, "node_modules", ".bin")}${delimiter}${process.env.PATH}` },
  };
}

/** Runs a program and gives what it says. */
export function ran(command: string, args: readonly string[], options: { cwd: string; env: NodeJS.ProcessEnv }) {
  const { status, stdout, stderr } = spawnSync(command, [...args], { ...options, encoding: "utf8" });
  return { status, stdout, stderr };
}
