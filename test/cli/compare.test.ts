/** `borewright compare` as its users meet it, on files, folders and a git repository made here. Runs the built program. */
import { execFileSync } from "node:child_process";
import { existsSync, mkdirSync, mkdtempSync, renameSync, rmSync, writeFileSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { afterAll, beforeAll, describe, expect, it } from "vitest";
import { WHISTLE } from "../support/designs.js";
import { runProgram } from "../support/program.js";

const MENDED = WHISTLE.replace("at: 210.3", "at: 205.3");
const SECOND = MENDED.replace("name: Test whistle ", "name: Second whistle ");
const repository = mkdtempSync(join(tmpdir(), "borewright-compare-"));
const path = (...parts: string[]) => join(repository, ...parts);

function git(...args: string[]): string {
  const who = [
    "-c",
    "user.name=Harbour workshop",
    "-c",
    "user.email=workshop@example.com",
    "-c",
    "commit.gpgSign=false",
  ];
  return execFileSync("git", [...who, ...args], {
    cwd: repository,
    encoding: "utf8",
    stdio: ["ignore", "pipe", "pipe"],
  });
}

const run = (args: readonly string[], cwd = repository, env: NodeJS.ProcessEnv = {}) =>
  runProgram(["compare", ...args], cwd, { env: { ...process.env, ...env } });

beforeAll(() => {
  mkdirSync(path("designs", "old"), { recursive: true });
  git("init", "-q", "-b", "main");
  writeFileSync(path("designs", "whistle.bore.yaml"), MENDED);
  writeFileSync(path("designs", "old", "second.bore.yaml"), SECOND);
  writeFileSync(path("designs", "third.bore.yaml"), MENDED.replace("name: Test whistle ", "name: Third whistle "));
  git("add", ".");
  git("commit", "-q", "-m", "Three whistles");
  writeFileSync(path("designs", "whistle.bore.yaml"), WHISTLE);
  renameSync(path("designs", "old", "second.bore.yaml"), path("designs", "second-in-g.bore.yaml"));
  rmSync(path("designs", "third.bore.yaml"));
  writeFileSync(path("designs", "fourth.bore.yaml"), MENDED.replace("name: Test whistle ", "name: Fourth whistle "));
});
afterAll(() => rmSync(repository, { recursive: true, force: true }));

describe("two files", () => {
  it("give status 1 where a note left its tolerance, 0 where all came into it", async () => {
    writeFileSync(path("mended.bore.yaml"), MENDED);
    const out = await run(["mended.bore.yaml", "designs/whistle.bore.yaml"]);
    expect(out).toMatchObject({ status: 1, stderr: "" });
    expect(out.stdout).toMatch(/^Test whistle · mended\.bore\.yaml → designs\/whistle\.bore\.yaml\n\d/);
    expect((await run(["designs/whistle.bore.yaml", "mended.bore.yaml"])).status).toBe(0);
    rmSync(path("mended.bore.yaml"));
  });
});

describe("a git repository", () => {
  it.each([
    ["HEAD:designs/whistle.bore.yaml", "designs/whistle.bore.yaml"],
    ["HEAD", "designs/whistle.bore.yaml"],
    ["main", "./designs/whistle.bore.yaml"],
    ["HEAD", path("designs", "whistle.bore.yaml")],
  ])("compares %s with %s", async (old, next) => {
    const { status, stdout, stderr } = await run([old, next]);
    expect(stderr).toBe("");
    expect(status).toBe(1);
    expect(stdout).toContain("`at` of L2: 205.3 → 210.3 mm (+5)");
  });

  it("takes paths from the folder it is called in, and from outside the repository", async () => {
    expect((await run(["HEAD", "whistle.bore.yaml"], path("designs"))).status).toBe(1);
    expect((await run(["HEAD:./whistle.bore.yaml", "whistle.bore.yaml"], path("designs"))).status).toBe(1);
    expect((await run(["HEAD", path("designs", "whistle.bore.yaml")], tmpdir())).status).toBe(1);
  });

  it("compares a folder with a revision of it: changed, renamed, new and gone", async () => {
    const { status, stdout } = await run(["HEAD", "designs", "--format", "json"]);
    expect(status).toBe(1);
    const designs = JSON.parse(stdout).designs as { kind: string; name: string; oldFile: string; newFile: string }[];
    expect(Object.fromEntries(designs.map(({ name, kind }) => [name, kind]))).toEqual({
      "Test whistle": "changed",
      "Second whistle": "unchanged",
      "Third whistle": "removed",
      "Fourth whistle": "added",
    });
    const second = designs.find(({ name }) => name === "Second whistle");
    expect(second).toMatchObject({
      oldFile: "HEAD:designs/old/second.bore.yaml",
      newFile: "designs/second-in-g.bore.yaml",
    });
    expect((await run(["HEAD", "designs"])).stdout).toMatch(/\n1 design does not change\.\n$/);
  });

  it("compares what is staged, and two revisions", async () => {
    git("add", "designs/whistle.bore.yaml");
    expect((await run(["HEAD:designs/whistle.bore.yaml", ":designs/whistle.bore.yaml"])).status).toBe(1);
    expect((await run([":designs/whistle.bore.yaml", "designs/whistle.bore.yaml"])).status).toBe(0);
    expect(await run(["HEAD", "main"])).toMatchObject({
      status: 0,
      stdout: expect.stringContaining("3 designs do not change."),
    });
    git("reset", "-q");
  });

  it("says in one line what is not there", async () => {
    for (const old of ["no-such-branch", "HEAD:no/such.bore.yaml", "no-such-file.bore.yaml"]) {
      const { status, stdout, stderr } = await run([old, "designs/whistle.bore.yaml"]);
      expect({ status, stdout }).toEqual({ status: 2, stdout: "" });
      expect(stderr).toMatch(/^[^\n]*no such revision, or no such file in it[^\n]*\n$/);
    }
  });

  it("gives git no option and no command to run", async () => {
    const trap = path("trap");
    writeFileSync(path("hook.sh"), `#!/bin/sh\ntouch '${trap}'\n`, { mode: 0o755 });
    git("config", "core.fsmonitor", path("hook.sh"));
    git("config", "diff.bore.textconv", path("hook.sh"));
    git("config", "core.pager", path("hook.sh"));
    writeFileSync(path(".gitattributes"), "*.bore.yaml diff=bore\n");
    expect((await run(["HEAD", "designs/whistle.bore.yaml"])).status).toBe(1);
    for (const old of ["--output=trap:x", "--upload-pack=touch trap:x", "-O", "$(touch trap):x", ";touch trap;:x"])
      expect((await run(["--", old, "designs/whistle.bore.yaml"])).status).toBe(2);
    expect(existsSync(trap)).toBe(false);
    for (const name of ["core.fsmonitor", "diff.bore.textconv", "core.pager"]) git("config", "--unset", name);
    rmSync(path(".gitattributes"));
  });

  it("goes on where one design cannot be read, and says so", async () => {
    writeFileSync(path("designs", "broken.bore.yaml"), Buffer.from([0xff, 0xfe, 0x00]));
    const { status, stdout, stderr } = await run(["HEAD", "designs"]);
    expect(status).toBe(2);
    expect(stdout).toContain("`at` of L2: 205.3 → 210.3 mm (+5)");
    expect(stderr).toMatch(/broken\.bore\.yaml: not UTF-8 text/);
    rmSync(path("designs", "broken.bore.yaml"));
  });
});
