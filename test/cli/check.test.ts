/** `check` of a repository: many files on several threads, what is known from a baseline, and watching. */
import { spawn, spawnSync } from "node:child_process";
import { copyFileSync, mkdirSync, mkdtempSync, readFileSync, rmSync, writeFileSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { afterAll, beforeAll, describe, expect, it } from "vitest";
import packageJson from "../../package.json";
import { WHISTLE } from "../support/designs.js";
import { STEERING } from "../support/hostileText.js";
import { PROGRAM, runProgram } from "../support/program.js";

const KILLS_THREADS = join(import.meta.dirname, "../support/threadFault.cjs");
const GULL = join(import.meta.dirname, "../../examples/gull-first-print.bore.yaml");
const TUNED = WHISTLE.replace("at: 210.3", "at: 205.3");
let folder = "";

beforeAll(() => {
  folder = mkdtempSync(join(tmpdir(), "borewright-check-"));
  mkdirSync(join(folder, "many"));
  for (let i = 0; i < 5; i++)
    writeFileSync(join(folder, "many", `${i}.bore.yaml`), i % 2 ? TUNED : WHISTLE.replace("name: L2", `name: H${i}`));
  writeFileSync(join(folder, "many", "4.bore.yaml"), new Uint8Array([0xff]));
});
afterAll(() => rmSync(folder, { recursive: true, force: true }));

const env = { ...process.env, FORCE_COLOR: "0" };

/** In a process of its own, as threads need it. */
function started(args: readonly string[], node: readonly string[] = []) {
  const options = { cwd: folder, encoding: "utf8", env } as const;
  const { status, stdout, stderr } = spawnSync(process.execPath, [...node, PROGRAM, "check", ...args], options);
  return { status, stdout, stderr };
}

const run = (args: readonly string[], cwd = folder) => runProgram(["check", ...args], cwd, { env });

describe("threads", () => {
  it("find what one finds, in the order of the files", async () => {
    const alone = await run(["many", "--threads", "1"]);
    expect(alone.status).toBe(2);
    expect(alone.stdout).toMatch(/\n5 files: 1 error, 2 warnings\.\n$/);
    // The fullest of the formats, with the edits that threads hand over.
    const sarif = started(["many", "--threads", "3", "--format", "sarif"]);
    expect(sarif.stdout).toContain('"fixes"');
    expect(sarif).toEqual(await run(["many", "--threads", "1", "--format", "sarif"]));
  });

  it("that crash lose only the file they are on, and are replaced", () => {
    mkdirSync(join(folder, "deadly"));
    for (const name of ["a", "kills-1", "kills-2", "kills-3", "z"])
      writeFileSync(join(folder, "deadly", `${name}.bore.yaml`), WHISTLE);
    const { status, stdout, stderr } = started(["deadly", "--threads", "2"], ["--require", KILLS_THREADS]);
    expect(status).toBe(2);
    expect(stdout.match(/^deadly\/.*?(?=:)/gm)).toEqual(["deadly/a.bore.yaml", "deadly/z.bore.yaml"]);
    expect(
      stderr.match(/internal error: deadly\/kills-\d\.bore\.yaml: the thread that checked it ended/g),
    ).toHaveLength(3);
  });
});

it("shows progress on a terminal, and clears it", (test) => {
  mkdirSync(join(folder, "long"));
  for (let i = 0; i < 40; i++)
    writeFileSync(join(folder, "long", `${i}.bore.yaml`), WHISTLE.replace("key: D5", `key: D5 # ${i}`));
  const line = `'${process.execPath}' '${PROGRAM}' check long --threads 2 > '${join(folder, "report")}'`;
  const options = { cwd: folder, encoding: "utf8", env: { ...process.env, TERM: "xterm-256color" } } as const;
  const { error, stdout } = spawnSync("script", ["-qec", line, "/dev/null"], options);
  if (error !== undefined) return test.skip("no program `script` to make a terminal with");
  // ECMA-48: carriage return, then what stood in the line is erased.
  const lines = stdout.split("\r\u001b[K");
  expect([lines[0], lines.at(-1)]).toEqual(["", ""]);
  expect(lines.length).toBeGreaterThan(2);
  for (const each of lines.slice(1, -1)) expect(each).toMatch(/^\d+ of 40: long\/\d+\.bore\.yaml$/);
  expect(readFileSync(join(folder, "report"), "utf8").replaceAll("\n", "")).not.toMatch(STEERING);
});

describe("--baseline", () => {
  const known = () => readFileSync(join(folder, "known.json"), "utf8");
  const check = (...args: string[]) => run(["set", "--baseline", "known.json", "--max-warnings", "0", ...args]);

  beforeAll(() => {
    mkdirSync(join(folder, "set"));
    writeFileSync(join(folder, "set", "a.bore.yaml"), WHISTLE);
    writeFileSync(join(folder, "set", "b.bore.yaml"), TUNED);
  });

  it("is written, one finding per line, and filters what it lists, wherever it is run from", async () => {
    expect((await run(["set", "--max-warnings", "0"])).status).toBe(1);
    expect(await check("--update-baseline")).toMatchObject({
      status: 0,
      stderr: expect.stringContaining("1 finding written as known"),
    });
    expect(known()).toBe(
      `{\n  "borewright-baseline": 1,\n  "findings": {\n    "set/a.bore.yaml": {\n      "warning pitch/out-of-tune holes[L2].at": 1\n    }\n  }\n}\n`,
    );
    expect(await check()).toEqual({
      status: 0,
      stdout: "2 files: nothing found.\n",
      stderr: "1 finding known from known.json left out.\n",
    });
    const within = await run([".", "--baseline", "../known.json", "--format", "json"], join(folder, "set"));
    expect(within).toMatchObject({ status: 0, stdout: "[]\n" });
  });

  it("recognizes a finding after lines, numbers and other holes have changed, and reports what is new", async () => {
    const moved = WHISTLE.replace("name: Test whistle", "# one more line\nname: Test whistle").replace(
      "210.3",
      "211.3",
    );
    writeFileSync(join(folder, "set", "a.bore.yaml"), moved);
    expect((await check()).status).toBe(0);
    // In another file it is another one, and so is one that has become an error.
    writeFileSync(join(folder, "set", "b.bore.yaml"), WHISTLE);
    expect(await check()).toMatchObject({
      status: 1,
      stdout: expect.stringMatching(/^set\/b\.bore\.yaml:.*\n2 files: 0 errors, 1 warning/),
    });
    writeFileSync(join(folder, "set", "b.bore.yaml"), TUNED);
    writeFileSync(join(folder, "set", "a.bore.yaml"), WHISTLE.replace("210.3", "222.3"));
    expect((await check()).stdout).toContain(": error: ");
  });

  it("says which of its findings are gone", async () => {
    writeFileSync(join(folder, "set", "a.bore.yaml"), TUNED);
    expect(await check()).toMatchObject({
      status: 0,
      stderr: expect.stringMatching(/^1 finding of known\.json no longer found/),
    });
  });

  it("that cannot be read is reported, and is not overwritten", async () => {
    const bad = {
      "{": /^bad\.json: not JSON/,
      "[]": /: no baseline/,
      '{"borewright-baseline":1,"findings":{"a":{"b":"c"}}}': /: no baseline/,
    };
    for (const [text, stderr] of Object.entries(bad)) {
      writeFileSync(join(folder, "bad.json"), text);
      const told = await run(["set", "--baseline", "bad.json", "--update-baseline"]);
      expect(told).toMatchObject({ status: 2, stdout: "", stderr: expect.stringMatching(stderr) });
      expect(readFileSync(join(folder, "bad.json"), "utf8")).toBe(text);
    }
    expect((await run(["set", "--baseline", "nowhere.json"])).stderr).toMatch(/^nowhere\.json: no such file/);
  });

  it("is not written where a file could not be checked", async () => {
    const { status, stderr } = await run(["many", "--baseline", "partly.json", "--update-baseline"]);
    expect(status).toBe(2);
    expect(stderr).toMatch(/^partly\.json: not written/);
    expect(() => readFileSync(join(folder, "partly.json"))).toThrow();
  });
});

describe("the problem matchers of the extension", () => {
  const [once, watching] = packageJson.contributes.problemMatchers;
  const { regexp = "", ...groups } = once?.pattern ?? {};

  it("read every line of the report as the data has it", async () => {
    const args = [GULL, "many/4.bore.yaml"];
    const rows = JSON.parse((await run([...args, "--format", "json"])).stdout) as Record<string, unknown>[];
    const { stdout } = await run(args);
    const read = stdout.split("\n").flatMap((line) => {
      const match = new RegExp(regexp).exec(line);
      return match === null ? [] : [Object.fromEntries(Object.entries(groups).map(([name, i]) => [name, match[i]]))];
    });
    expect(rows.length).toBeGreaterThan(2);
    expect(read).toEqual(
      rows.map(({ file, line, column, severity, message, code }) => ({
        file,
        line: String(line),
        column: String(column),
        severity,
        message,
        code,
      })),
    );
  });

  it("know where a round of --watch begins and ends", async () => {
    const { beginsPattern = "", endsPattern = "" } = watching?.background ?? {};
    expect("Checking 12 files…").toMatch(new RegExp(beginsPattern));
    const end = (await run(["set"])).stdout.trimEnd().split("\n").at(-1);
    expect(end).toMatch(new RegExp(endsPattern));
  });
});

describe("--watch", () => {
  it("checks again what has changed, is new or gone, until it is ended", async () => {
    const watched = join(folder, "watched");
    mkdirSync(watched);
    writeFileSync(join(watched, "a.bore.yaml"), WHISTLE);
    const program = spawn(process.execPath, [PROGRAM, "check", "watched", "--watch"], { cwd: folder });
    let said = "";
    program.stdout.on("data", (chunk) => {
      said += chunk;
    });
    const saying = async (end: string) => {
      while (!said.endsWith(end)) await new Promise((resolve) => program.stdout.once("data", resolve));
      const all = said;
      said = "";
      return all;
    };
    try {
      expect(await saying("1 file: 0 errors, 1 warning.\n")).toMatch(
        /^Checking 1 file…\nwatched\/a\.bore\.yaml:.*E5 sounds/,
      );
      mkdirSync(join(watched, "new"));
      copyFileSync(join(watched, "a.bore.yaml"), join(watched, "new", "b.bore.yaml"));
      expect(await saying("2 files: 0 errors, 2 warnings.\n")).toContain("watched/new/b.bore.yaml");
      writeFileSync(join(watched, "a.bore.yaml"), TUNED);
      await saying("2 files: 0 errors, 1 warning.\n");
      rmSync(join(watched, "new"), { recursive: true });
      await saying("1 file: nothing found.\n");
    } finally {
      program.kill();
    }
  });

  it("refuses what it cannot do", async () => {
    const { status, stderr } = await run(["many", "--watch", "--format", "json"]);
    expect({ status, stderr }).toEqual({ status: 2, stderr: "--watch: prints text: leave out --format\n" });
  });
});
