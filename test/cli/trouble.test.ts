/** The command line with files that are not what their names say, that cannot be written, and with faults of our own. */
import { spawnSync } from "node:child_process";
import {
  chmodSync,
  closeSync,
  ftruncateSync,
  mkdirSync,
  mkdtempSync,
  openSync,
  readdirSync,
  readFileSync,
  rmSync,
  symlinkSync,
  writeFileSync,
} from "node:fs";
import { createServer } from "node:net";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { afterAll, beforeAll, beforeEach, describe, expect, it } from "vitest";
import { THREE_HOLES, WHISTLE } from "../support/designs.js";
import { PROGRAM, runProgram } from "../support/program.js";

const FAULTS = join(import.meta.dirname, "../support/fsFault.cjs");
const isRoot = process.getuid?.() === 0;
let home = "";
let folder = "";

beforeAll(() => {
  home = mkdtempSync(join(tmpdir(), "borewright-trouble-"));
  chmodSync(home, 0o755);
});
afterAll(() => rmSync(home, { recursive: true, force: true }));
beforeEach(() => {
  folder = mkdtempSync(join(home, "case-"));
  chmodSync(folder, 0o755);
});

interface Circumstances {
  readonly fault?: object;
  readonly env?: Record<string, string>;
  readonly uid?: number;
}

/** In a process of its own, as faults and other users need it. */
function started(args: readonly string[], { fault, env, uid }: Circumstances = {}) {
  const preload = fault === undefined ? [] : ["--require", FAULTS];
  const { status, stdout, stderr } = spawnSync(process.execPath, [...preload, PROGRAM, ...args], {
    cwd: folder,
    encoding: "utf8",
    env: { ...process.env, BOREWRIGHT_TEST_FAULT: JSON.stringify(fault ?? {}), ...env },
    timeout: 40_000,
    ...(uid === undefined ? {} : { uid, gid: uid }),
  });
  return { status, stdout, stderr };
}

const run = (args: readonly string[]) => runProgram(args, folder);

/** Name, what makes it, and what is said of it. Those that hang or fill the memory if they are simply read come first. */
const UNREADABLE: readonly (readonly [string, (path: string) => void, RegExp])[] = [
  ["endless.bore.yaml", (path) => symlinkSync("/dev/zero", path), /a device, not a regular file/],
  ["pipe.bore.yaml", (path) => void spawnSync("mkfifo", [path]), /a pipe, not a regular file/],
  ["huge.bore.yaml", (path) => sized(path, 1_900_000_000), /larger than 3 MB/],
  ["folder.bore.yaml", (path) => mkdirSync(path), /a folder, not a file/],
  ["dangling.bore.yaml", (path) => symlinkSync("nowhere", path), /no such file/],
  ["loop.bore.yaml", (path) => symlinkSync("loop.bore.yaml", path), /links that lead to one another/],
  ["binary.bore.yaml", (path) => writeFileSync(path, new Uint8Array([0xff, 0xfe, 0])), /not UTF-8 text/],
];

function sized(path: string, size: number): void {
  const open = openSync(path, "w");
  ftruncateSync(open, size); // sparse: takes no room
  closeSync(open);
}

describe("borewright check of a folder", () => {
  it("reports each unreadable file as a finding, and checks all the others", async () => {
    for (const [name, make] of UNREADABLE) make(join(folder, name));
    writeFileSync(join(folder, "zz.bore.yaml"), WHISTLE);
    const socket = createServer().listen(join(folder, "socket.bore.yaml"));
    await new Promise((resolve) => socket.once("listening", resolve));
    const { status, stdout, stderr } = started(["check", "."]);
    socket.close();
    for (const [name, , words] of UNREADABLE) {
      const told = stdout
        .split("\n")
        .filter((line) => line.startsWith(`${name}:1:1: error: This file cannot be read: `));
      expect(told, name).toHaveLength(1);
      expect(told[0]).toMatch(words);
    }
    expect(stdout).toMatch(/^socket\.bore\.yaml:1:1: error: .*a socket, not a regular file\. \[file\/unreadable\]$/m);
    expect(stdout).toMatch(/^huge\.bore\.yaml:.* \[file\/too-large\]$/m);
    expect(stdout).toMatch(/^zz\.bore\.yaml:\d+:\d+: warning: E5 sounds/m);
    expect({ status, stderr }).toEqual({ status: 2, stderr: "" });
  });

  it("reports them in every format", async () => {
    writeFileSync(join(folder, "a.bore.yaml"), new Uint8Array([0xff]));
    const inFormat = async (format: string) => (await run(["check", ".", "--format", format])).stdout;
    expect(JSON.parse(await inFormat("json"))).toMatchObject([
      { file: "a.bore.yaml", code: "file/unreadable", line: 1 },
    ]);
    expect(JSON.parse(await inFormat("sarif")).runs[0].results).toMatchObject([{ ruleId: "file/unreadable" }]);
    expect(await inFormat("github")).toMatch(/^::error file=a\.bore\.yaml,line=1,/);
  });

  it("visits every real file once and follows no folder in a circle", async () => {
    mkdirSync(join(folder, "in"));
    writeFileSync(join(folder, "in/a.bore.yaml"), WHISTLE);
    symlinkSync("..", join(folder, "in/up"));
    symlinkSync("a.bore.yaml", join(folder, "in/b.bore.yaml"));
    symlinkSync("in", join(folder, "other"));
    expect((await run(["check", ".", "in", "other", "in/a.bore.yaml"])).stdout).toMatch(/^1 file: /m);
    expect((await run(["check", "other"])).stdout).toMatch(/^other\/a\.bore\.yaml:.*\n1 file: /m);
  });

  it("goes on beside a folder that must not be looked into, and a path that is not there", () => {
    mkdirSync(join(folder, "shut"));
    writeFileSync(join(folder, "a.bore.yaml"), WHISTLE);
    chmodSync(join(folder, "shut"), 0);
    // Root may look into everything.
    const { status, stdout } = started(["check", "nowhere", "."], isRoot ? { uid: 65_534 } : {});
    chmodSync(join(folder, "shut"), 0o755);
    expect(status).toBe(2);
    expect(stdout).toMatch(/^shut:1:1: error: .*permission denied/m);
    expect(stdout).toMatch(/^nowhere:1:1: error: .*no such file or folder/m);
    expect(stdout).toMatch(/^a\.bore\.yaml:\d+:\d+: warning/m);
  });
});

describe("the other commands", () => {
  it.each(UNREADABLE)("say in one line what is wrong with %s", async (name, make, words) => {
    make(join(folder, name));
    const { status, stdout, stderr } = await run(["pitch", name]);
    expect({ status, stdout }).toEqual({ status: 2, stdout: "" });
    expect(stderr).toMatch(words);
    expect(stderr).toMatch(/^\w+\.bore\.yaml: [^\n]+\n$/);
  });

  it("do not wait at a pipe that was a file when it was looked at", () => {
    const file = join(folder, "a.bore.yaml");
    writeFileSync(file, WHISTLE);
    const { status, stderr } = started(["pitch", "a.bore.yaml"], {
      fault: { at: "openSync", does: "pipe", file, once: true },
    });
    expect({ status, stderr }).toEqual({ status: 2, stderr: "a.bore.yaml: a pipe, not a regular file\n" });
  });

  it.each([
    [["rekey", "a.bore.yaml", "--to", "F4", "--write"]],
    [["rekey", "a.bore.yaml", "--to", "F4", "-o", "b.bore.yaml"]],
    [["rekey", "a.bore.yaml", "--to", "F4,A4", "-o", "."]],
    [["retune", "a.bore.yaml", "--keep-bore", "--write"]],
    [["calibrate", "a.bore.yaml", "--write"]],
  ])("%j leaves everything as it was where a file cannot be written", (args) => {
    const text = `${THREE_HOLES.replace("at: 200.9", "at: 204")}measured:\n  - { note: D5, hz: 574.2 }\n`;
    writeFileSync(join(folder, "a.bore.yaml"), text);
    const { status, stdout, stderr } = started(args, { fault: { at: "renameSync", does: "ENOSPC" } });
    expect({ status, stdout }).toEqual({ status: 2, stdout: "" });
    expect(stderr).toMatch(/^[\w-]+\.bore\.yaml: no space left on the device\n$/);
    expect(readdirSync(folder)).toEqual(["a.bore.yaml"]);
    expect(readFileSync(join(folder, "a.bore.yaml"), "utf8")).toBe(text);
  });

  it("leaves alone a design that somebody changed meanwhile", () => {
    const file = join(folder, "a.bore.yaml");
    writeFileSync(file, WHISTLE);
    const fault = { at: "fsyncSync", does: "append", file };
    const { status, stderr } = started(["rekey", "a.bore.yaml", "--to", "F4", "--write"], { fault });
    expect(status).toBe(2);
    expect(stderr).toMatch(/^a\.bore\.yaml: has changed since it was read/);
    expect(readFileSync(file, "utf8")).toBe(`${WHISTLE}# added meanwhile\n`);
  });

  it.each(["G4,../../x", "G4,H4", "../x"])(
    "write nothing of the set %s, one of whose names is not a note",
    async (to) => {
      writeFileSync(join(folder, "a.bore.yaml"), WHISTLE);
      const { status, stderr } = await run(["rekey", "a.bore.yaml", "--to", to, "-o", "set"]);
      expect(status).toBe(2);
      expect(stderr).toMatch(/^--to: "[^"]+" is not a note: [^\n]+\n$/);
      expect(readdirSync(folder)).toEqual(["a.bore.yaml"]);
    },
  );

  it("write each key of a set once, under names without blanks", async () => {
    writeFileSync(join(folder, "a.bore.yaml"), WHISTLE);
    expect((await run(["rekey", "a.bore.yaml", "--to", "F#4, A4,f♯4", "-o", "set"])).status).toBe(0);
    expect(readdirSync(join(folder, "set"))).toEqual(["a-in-a4.bore.yaml", "a-in-fs4.bore.yaml"]);
  });
});

describe("our own faults, and those of the output", () => {
  it("is reported in one line; the place in our code only if asked for", () => {
    writeFileSync(join(folder, "a.bore.yaml"), WHISTLE);
    // A code the system does not have is no trouble with a file.
    const fault = { at: "fstatSync", does: "nonsense" };
    const { status, stdout, stderr } = started(["pitch", "a.bore.yaml"], { fault });
    expect({ status, stdout }).toEqual({ status: 2, stdout: "" });
    expect(stderr).toMatch(/^borewright: internal error: nonsense: injected, fstat\. Please report it [^\n]+\n$/);
    expect(started(["pitch", "a.bore.yaml"], { fault, env: { BOREWRIGHT_DEBUG: "1" } }).stderr).toMatch(/\n +at /);
  });

  it("does not keep `check` from the other files", () => {
    writeFileSync(join(folder, "a.bore.yaml"), WHISTLE);
    writeFileSync(join(folder, "b.bore.yaml"), WHISTLE);
    const { status, stdout, stderr } = started(["check", "."], {
      fault: { at: "fstatSync", does: "nonsense", once: true },
    });
    expect(status).toBe(2);
    expect(stderr).toMatch(/^borewright: internal error: a\.bore\.yaml: nonsense[^\n]+\n$/);
    expect(stdout).toMatch(/^b\.bore\.yaml:\d+:\d+: warning/m);
  });

  it("is reported where the output cannot be written, and not where its reader has gone", () => {
    writeFileSync(join(folder, "a.bore.yaml"), WHISTLE);
    const shell = (line: string) => spawnSync("sh", ["-c", line], { cwd: folder, encoding: "utf8" });
    const command = `'${process.execPath}' '${PROGRAM}' pitch a.bore.yaml`;
    const full = shell(`${command} > /dev/full`);
    expect(full.status).toBe(2);
    expect(full.stderr).toMatch(/^standard output: [^\n]+\n$/);
    expect(shell(`${command} | true`).stderr).toBe("");
  });
});
