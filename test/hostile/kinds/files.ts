/** Trouble with files, met by the command line: it is reported as a finding, the rest goes on, and the maker's files stay whole. */
import { execFileSync, spawnSync } from "node:child_process";
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
  statSync,
  symlinkSync,
  writeFileSync,
} from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { type Circumstances, run, runFaults } from "../commandLine.js";
import type { Fault, Kind } from "../kind.js";
import type { Random } from "../random.js";
import { examples } from "../texts.js";

interface FilesCase {
  /** What else lies in the folder. */
  readonly troubles: readonly (keyof typeof TROUBLES)[];
  readonly command: "check folder" | "check files" | "read one" | "write";
  readonly writing: readonly string[];
  readonly full: "no" | "limit" | "tmpfs" | "device";
  /** ms after which it is killed. */
  readonly killedAfter: number | null;
  readonly mode: number;
}

const HUGE = 3 * 2 ** 30;
const GOOD = "good.bore.yaml";
/** One finding that must be reported whatever is beside it. */
const WRONG = "nobody: knows\n";
/** Exit status of a command that could not be carried out. */
const UNUSABLE = 2;
/** `nobody` on the systems we know; only the superuser may become somebody else. */
const NOBODY = 65_534;

/** Each makes one thing at a path. */
const TROUBLES = {
  fifo: (path: string) => void execFileSync("mkfifo", [path]),
  "link to zeros": (path: string) => symlinkSync("/dev/zero", path),
  "link to nowhere": (path: string) => symlinkSync("nowhere", path),
  "link to itself": (path: string) => symlinkSync(path, path),
  "link to the folder": (path: string) => symlinkSync(".", path),
  folder: (path: string) => void mkdirSync(path),
  unreadable: (path: string) => {
    writeFileSync(path, "borewright: 1\n");
    chmodSync(path, 0);
  },
  "unreadable folder": (path: string) => {
    mkdirSync(path);
    chmodSync(path, 0);
  },
  huge: (path: string) => {
    const file = openSync(path, "w");
    ftruncateSync(file, HUGE);
    closeSync(file);
  },
  large: (path: string) => writeFileSync(path, "x: 1\n".repeat(400_000)),
  empty: (path: string) => writeFileSync(path, ""),
  "not UTF-8": (path: string) => writeFileSync(path, Buffer.from([0x62, 0xff, 0xfe, 0xc0, 0x80])),
  "UTF-16": (path: string) => writeFileSync(path, Buffer.from("borewright: 1\n", "utf16le")),
  zeros: (path: string) => writeFileSync(path, Buffer.alloc(4096)),
} as const;
const NAMES = ["t", "-x", "a b", "\u001b[31mred", "new\nline", "é", "::error::x", "💡", "%0A", "..", "$(id)"];

export const files: Kind<FilesCase> = {
  name: "files",
  share: 3,
  draw: (random) => ({
    troubles: random.some(Object.keys(TROUBLES) as (keyof typeof TROUBLES)[], 0.25),
    command: random.pick(["check folder", "check files", "read one", "write", "write"]),
    writing: drawnWriting(random),
    full: random.pick(["no", "no", "limit", "tmpfs", "device"]),
    killedAfter: random.chance(0.3) ? random.whole(100, 1500) : null,
    mode: random.pick([0o644, 0o600, 0o640, 0o755, 0o444]),
  }),
  check: filesFaults,
  parts: [{ of: ({ troubles }) => troubles, from: (given, troubles) => ({ ...given, troubles }) }],
};

function drawnWriting(random: Random): readonly string[] {
  return random.pick([
    ["rekey", GOOD, "--to", "A4", "--by", "redraw", "--write"],
    ["rekey", GOOD, "--to", "A4", "--by", "print-scale", "--write"],
    ["rekey", GOOD, "--to", "A4", "-o", GOOD],
    ["rekey", GOOD, "--to", "A4,../x", "-o", "set"],
    ["rekey", GOOD, "--to", "A4,Bb4", "-o", "set"],
    ["rekey", GOOD, "--to", "A4", "-o", "no/such/folder/x.bore.yaml"],
    ["rekey", GOOD, "--to", "A4", "-o", "."],
    ["rekey", GOOD, "--to", "A4", "-o", "/dev/full"],
    ["rekey", "link.bore.yaml", "--to", "A4", "--by", "redraw", "--write"],
    ["calibrate", GOOD, "--write"],
  ]);
}

async function filesFaults(given: FilesCase): Promise<readonly Fault[]> {
  const outer = mkdtempSync(join(tmpdir(), "borewright-files-"));
  const tmpfs = given.full === "tmpfs" && given.command === "write" && mounted(outer);
  const folder = join(outer, "work");
  try {
    const text = `${examples().find(({ file }) => file.startsWith("quay"))?.text ?? ""}measured: [{ note: G4, hz: 388 }]\n${WRONG}`;
    mkdirSync(folder);
    writeFileSync(join(folder, GOOD), text);
    symlinkSync(GOOD, join(folder, "link.bore.yaml"));
    const made = given.troubles.map((trouble, i) => {
      const name = `${NAMES[i % NAMES.length]}${i}.bore.yaml`;
      TROUBLES[trouble](join(folder, name));
      return name;
    });
    return given.command === "write"
      ? await writeFaults(given, folder, text, tmpfs)
      : await readFaults(given, folder, made);
  } finally {
    if (tmpfs) spawnSync("umount", [outer]);
    rmSync(outer, { recursive: true, force: true });
  }
}

/** A file system of few blocks, where we may make one. */
function mounted(path: string): boolean {
  return spawnSync("mount", ["-t", "tmpfs", "-o", "size=4m", "tmpfs", path]).status === 0;
}

async function readFaults(
  { command, troubles }: FilesCase,
  folder: string,
  made: readonly string[],
): Promise<readonly Fault[]> {
  const circumstances: Circumstances = { cwd: folder, ...(process.getuid?.() === 0 && { uid: NOBODY }) };
  if (circumstances.uid !== undefined) for (const path of [join(folder, ".."), folder]) chmodSync(path, 0o755);
  const args =
    command === "check folder"
      ? ["check", "."]
      : command === "check files"
        ? ["check", "--", ...made, GOOD]
        : ["pitch", "--", made[0] ?? GOOD];
  const ran = await run(args, circumstances);
  const faults = [...runFaults(ran, "")];
  const told = command === "read one" || ran.stdout.includes(GOOD);
  if (!told)
    faults.push({ rule: "others not told", detail: `${command}\n${troubles.join(", ")}\n${ran.stdout}${ran.stderr}` });
  return faults.map(({ rule, detail }) => ({ rule, detail: `${detail}\n${troubles.join(", ")}` }));
}

async function writeFaults(given: FilesCase, folder: string, text: string, tmpfs: boolean): Promise<readonly Fault[]> {
  const { writing, full, mode, killedAfter } = given;
  const path = join(folder, GOOD);
  chmodSync(path, mode);
  if (tmpfs) filled(folder);
  const lying = () => readdirSync(folder, { recursive: true }).toSorted().join(", ");
  const before = lying();
  const ran = await run(writing, {
    cwd: folder,
    ...(killedAfter !== null && { killedAfter }),
    ...(full === "limit" && { fileLimit: 0 }),
  });
  const faults = [...(killedAfter === null ? runFaults(ran, "") : [])];
  const now = readFileSync(path, "utf8");
  const detail = `${writing.slice(0, 2).join(" ")}: ${full}${killedAfter === null ? "" : ", killed"}`;
  // The old file or the new one, whole: the new one ends as the old one did.
  if (now !== text && !(now.length > text.length / 2 && now.endsWith(text.slice(-40))))
    faults.push({ rule: "broken file", detail });
  if (ran.code !== null && ran.code !== 0 && now !== text)
    faults.push({ rule: "broken file", detail: `${detail}: failed, but changed it` });
  // All of a set or none of it, and nothing left beside it.
  if (ran.code === UNUSABLE && lying() !== before)
    faults.push({ rule: "left behind", detail: `${detail}\n${before}\n${lying()}` });
  if ((statSync(path).mode & 0o777) !== mode) faults.push({ rule: "file mode", detail });
  return faults;
}

/** Nothing more fits. */
function filled(folder: string): void {
  try {
    writeFileSync(join(folder, "filling"), Buffer.alloc(2 ** 23));
  } catch {
    // as it is meant to
  }
}
