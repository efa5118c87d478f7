/** Files are the old one or the new one, whole, whatever happens while they are written (POSIX.1-2017: rename, fsync). */
import { spawnSync } from "node:child_process";
import {
  chmodSync,
  chownSync,
  lstatSync,
  mkdirSync,
  mkdtempSync,
  readdirSync,
  readFileSync,
  readlinkSync,
  rmSync,
  statSync,
  symlinkSync,
  writeFileSync,
} from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { build } from "esbuild";
import { afterAll, beforeAll, beforeEach, describe, expect, it } from "vitest";

const FAULTS = join(import.meta.dirname, "../support/fsFault.cjs");
const OLD = "old\n".repeat(2000);
const NEW = "new text\n".repeat(2000);
/** Reading and writing one file takes fifteen or so. */
const MORE_THAN_ITS_CALLS = 24;
const isRoot = process.getuid?.() === 0;
let home = "";
let folder = "";
let program = "";

beforeAll(async () => {
  home = mkdtempSync(join(tmpdir(), "borewright-files-"));
  program = join(home, "writer.cjs");
  const root = join(import.meta.dirname, "../../server/src/files");
  // Reads the file, then writes each name given, and says on stderr what the command line would. Told to try many calls it does
  // so with the first file once for each call that fails, and prints what came of it.
  await build({
    stdin: {
      contents: `import { readdirSync, readFileSync, writeFileSync } from "node:fs";
        import { writeFiles } from "./writeFiles"; import { readText } from "./readText";
        const [seen, ...names] = process.argv.slice(2);
        function trouble() {
          try {
            const { bytes } = readText(seen, 1e6);
            writeFiles(names.map((file) => ({ file, text: ${JSON.stringify(NEW)} })), { file: seen, bytes });
            return "";
          } catch (error) {
            if (error.constructor.name !== "FileTrouble") throw error;
            return error.message;
          }
        }
        const { EACH_CALL_BELOW, FAILS_BY } = process.env;
        const each = Array.from({ length: Math.max(0, (EACH_CALL_BELOW ?? 0) - 1) }, (_, i) => {
          writeFileSync(seen, ${JSON.stringify(OLD)});
          nextFault({ at: i + 1, does: FAILS_BY });
          const told = trouble();
          nextFault({});
          return { told, text: readFileSync(seen, "utf8"), left: readdirSync(".").filter((name) => name.endsWith(".tmp")) };
        });
        if (EACH_CALL_BELOW !== undefined) process.stdout.write(JSON.stringify(each));
        else {
          const told = trouble();
          if (told !== "") {
            process.stderr.write(told + "\\n");
            process.exitCode = 2;
          }
        }`,
      resolveDir: root,
      loader: "ts",
    },
    bundle: true,
    platform: "node",
    format: "cjs",
    outfile: program,
    logLevel: "error",
  });
});
afterAll(() => rmSync(home, { recursive: true, force: true }));
beforeEach(() => {
  folder = mkdtempSync(join(home, "case-"));
  writeFileSync(join(folder, "a"), OLD);
});

function write(names: readonly string[], fault: object = {}, seen = "a") {
  const { status, signal, stderr } = spawnSync(process.execPath, ["--require", FAULTS, program, seen, ...names], {
    cwd: folder,
    encoding: "utf8",
    env: { ...process.env, BOREWRIGHT_TEST_FAULT: JSON.stringify(fault) },
    timeout: 30_000,
  });
  return { status, signal, stderr };
}

const text = (name: string) => readFileSync(join(folder, name), "utf8");
const temporaries = () => readdirSync(folder).filter((name) => name.endsWith(".tmp"));

describe("a write that is cut short", () => {
  it("leaves the old file or the new one whole, whichever call the process is killed in", () => {
    const seen = new Set<string>();
    let at = 1;
    for (; ; at++) {
      writeFileSync(join(folder, "a"), OLD);
      const { status, signal, stderr } = write(["a"], { at, does: "kill" });
      expect([OLD, NEW], `killed at call ${at}`).toContain(text("a"));
      if (signal === null) {
        expect({ status, stderr }).toEqual({ status: 0, stderr: "" });
        break;
      }
      seen.add(text("a"));
    }
    expect(at).toBeGreaterThan(10);
    expect(seen).toEqual(new Set([OLD, NEW]));
  });

  it("that fails on the device is reported in one line and tidied up, whichever call fails", () => {
    const env = { ...process.env, EACH_CALL_BELOW: `${MORE_THAN_ITS_CALLS}`, FAILS_BY: "EIO" };
    const args = ["--require", FAULTS, program, "a", "a"];
    const { stdout, stderr } = spawnSync(process.execPath, args, { cwd: folder, encoding: "utf8", env });
    expect(stderr).toBe("");
    const each = JSON.parse(stdout) as { told: string; text: string; left: string[] }[];
    expect(each).toHaveLength(MORE_THAN_ITS_CALLS - 1);
    for (const [i, came] of each.entries())
      expect(came, `EIO at call ${i + 1}`).toEqual(
        came.told === ""
          ? { told: "", text: NEW, left: [] }
          : { told: "a: the device reports an error", text: OLD, left: [] },
      );
    expect(each.filter(({ told }) => told !== "").length).toBeGreaterThan(8);
  });

  it.each([
    ["ENOSPC", "writeFileSync", "no space left on the device"],
    ["EDQUOT", "fsyncSync", "the disk quota is used up"],
    ["EROFS", "openSync", "the file system is read-only"],
    ["EACCES", "renameSync", "permission denied"],
    ["EWHATEVER", "renameSync", "the system says EWHATEVER: injected, rename"],
  ])("by %s in %s is told in words", (does, at, words) => {
    const { status, stderr } = write(["a"], { at, does });
    expect({ status, stderr, text: text("a"), left: temporaries() }).toEqual({
      status: 2,
      stderr: `a: ${words}\n`,
      text: OLD,
      left: [],
    });
  });

  it("writes none of several where one cannot be written", () => {
    mkdirSync(join(folder, "c"));
    const { status, stderr } = write(["a", "b", "c"]);
    expect({ status, stderr }).toEqual({ status: 2, stderr: "c: a folder, not a file\n" });
    expect(readdirSync(folder).sort()).toEqual(["a", "c"]);
    expect(text("a")).toBe(OLD);
  });

  it("removes the folders it made, and no other", () => {
    mkdirSync(join(folder, "mine"));
    const { status } = write(["mine/new/deep/b", "other/c"], { at: "renameSync", does: "EIO" });
    expect(status).toBe(2);
    expect(readdirSync(folder, { recursive: true }).sort()).toEqual(["a", "mine"]);
  });

  it("says that a full disk is full", (test) => {
    const disk = join(folder, "disk");
    mkdirSync(disk);
    const mounted = spawnSync("mount", ["-t", "tmpfs", "-o", "size=16k", "tmpfs", disk]).status === 0;
    if (!mounted) return test.skip("no right to mount a small disk here");
    try {
      writeFileSync(join(disk, "b"), OLD);
      const { status, stderr } = write(["disk/b"]);
      expect({ status, stderr }).toEqual({ status: 2, stderr: "disk/b: no space left on the device\n" });
      expect(text("disk/b")).toBe(OLD);
      expect(readdirSync(disk)).toEqual(["b"]);
    } finally {
      spawnSync("umount", [disk]);
    }
  });
});

describe("a file that somebody else writes meanwhile", () => {
  it("is left as they made it", () => {
    const { status, stderr } = write(["a"], { at: "fsyncSync", does: "append", file: join(folder, "a") });
    expect(status).toBe(2);
    expect(stderr).toMatch(/^a: has changed since it was read.*\n$/);
    expect(text("a")).toBe(`${OLD}# added meanwhile\n`);
    expect(temporaries()).toEqual([]);
  });

  it("is recognized under any of its names, and other files are not taken for it", () => {
    symlinkSync("a", join(folder, "link"));
    const fault = { at: "fsyncSync", does: "append", file: join(folder, "a") };
    expect(write(["link"], fault).status).toBe(2);
    expect(write(["b"], fault).status).toBe(0);
  });
});

describe("what a file is", () => {
  it("keeps its mode, its owner and its being a link", () => {
    chmodSync(join(folder, "a"), 0o640);
    if (isRoot) chownSync(join(folder, "a"), 1234, 4321);
    symlinkSync("a", join(folder, "first"));
    symlinkSync(join(folder, "first"), join(folder, "second"));
    expect(write(["second"]).status).toBe(0);
    expect(text("a")).toBe(NEW);
    expect(readlinkSync(join(folder, "first"))).toBe("a");
    expect(lstatSync(join(folder, "second")).isSymbolicLink()).toBe(true);
    const { mode, uid, gid } = statSync(join(folder, "a"));
    expect(mode & 0o7777).toBe(0o640);
    if (isRoot) expect([uid, gid]).toEqual([1234, 4321]);
  });

  it("follows the user's mask where it is new, in folders still to be made", () => {
    expect(write(["new/place/b"]).status).toBe(0);
    expect(statSync(join(folder, "new/place/b")).mode & 0o777).toBe(0o666 & ~process.umask());
  });

  it("is never turned from a pipe, a folder or a link to nothing into a file", () => {
    expect(spawnSync("mkfifo", [join(folder, "pipe")]).status).toBe(0);
    mkdirSync(join(folder, "folder"));
    symlinkSync("nowhere", join(folder, "dangling"));
    symlinkSync("loop", join(folder, "loop"));
    expect(write(["pipe"]).stderr).toBe("pipe: a pipe, not a regular file\n");
    expect(write(["folder"]).stderr).toBe("folder: a folder, not a file\n");
    expect(write(["dangling"]).stderr).toBe("dangling: a link that leads nowhere\n");
    expect(write(["loop"]).stderr).toBe("loop: links that lead to one another\n");
    expect(write(["a/b"]).stderr).toMatch(
      /^a\/b: (a part of the path is not a folder|a file of this name is in the way)\n$/,
    );
    expect(lstatSync(join(folder, "pipe")).isFIFO()).toBe(true);
    expect(readdirSync(folder).sort()).toEqual(["a", "dangling", "folder", "loop", "pipe"]);
  });
});
