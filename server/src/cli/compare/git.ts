/**
 * Reads from a git repository, and does nothing else: no shell, no option that a name could pass for, nothing that runs what the
 * repository names. Only the command line runs git, where somebody typed the command; the language server never does.
 */
import { execFileSync } from "node:child_process";
import { FileTrouble } from "../../files/fileTrouble.js";

/** A git that prompts or waits is of no use here. ms */
const LONGEST_WAIT = 60_000;
/** Names of a tree of some ten thousand files. Bytes. */
const LONGEST_LIST = 16 * 1024 * 1024;

/** `core.fsmonitor` names a program that git would start; a name is a name, not a pattern. */
const QUIET = ["--no-pager", "--literal-pathspecs", "--no-optional-locks", "-c", "core.fsmonitor=false"];

/** What a name such as `HEAD:designs/a.bore.yaml` stands for. */
export interface GitObject {
  /** Hexadecimal. */
  readonly id: string;
  readonly kind: "blob" | "tree" | "other";
}

/** @param folder where git looks from @throws FileTrouble where there is no such thing */
export function gitObject(name: string, folder: string): GitObject {
  // `--end-of-options` keeps git from taking it for an option; a revision cannot begin with one anyway (git-check-ref-format).
  if (name.startsWith("-")) throw new FileTrouble(name, "no revision begins with a dash");
  const id = text(
    git(["rev-parse", "--verify", "--quiet", "--end-of-options", name], folder, name, LONGEST_LIST),
  ).trim();
  if (!/^[0-9a-f]{40,64}$/.test(id)) throw new FileTrouble(name, NOT_THERE);
  const kind = text(git(["cat-file", "-t", id], folder, name, LONGEST_LIST)).trim();
  return { id, kind: kind === "blob" || kind === "tree" ? kind : "other" };
}

/** @throws FileTrouble where it is larger than `mostBytes` */
export function gitBlob({ id }: GitObject, folder: string, name: string, mostBytes: number): Buffer {
  return git(["cat-file", "blob", id], folder, name, mostBytes);
}

/** Files of a tree and of those in it, each with its path from there; neither links nor submodules. */
export function gitFiles({ id }: GitObject, folder: string, name: string): ReadonlyMap<string, GitObject> {
  const list = text(git(["ls-tree", "-r", "-z", "--full-tree", id], folder, name, LONGEST_LIST));
  const files = new Map<string, GitObject>();
  for (const entry of list.split("\0")) {
    const match = /^100\d{3} blob ([0-9a-f]{40,64})\t(.+)$/s.exec(entry);
    if (match?.[1] !== undefined && match[2] !== undefined) files.set(match[2], { id: match[1], kind: "blob" });
  }
  return files;
}

const NOT_THERE = "no such revision, or no such file in it (is this a git repository, and is all of its history here?)";

function git(args: readonly string[], cwd: string, name: string, maxBuffer: number): Buffer {
  try {
    return execFileSync("git", [...QUIET, ...args], {
      cwd,
      maxBuffer,
      timeout: LONGEST_WAIT,
      stdio: ["ignore", "pipe", "ignore"],
      windowsHide: true,
      // Nothing of a partial clone is fetched, and nobody is asked for a password.
      env: { ...process.env, GIT_NO_LAZY_FETCH: "1", GIT_TERMINAL_PROMPT: "0", GIT_OPTIONAL_LOCKS: "0" },
    });
  } catch (error) {
    const { code } = error as NodeJS.ErrnoException;
    if (code === "ENOENT") throw new FileTrouble(name, "git is not installed, or the folder is gone");
    if (code === "ENOBUFS") throw new FileTrouble(name, "larger than any design, and so not read");
    throw new FileTrouble(name, NOT_THERE);
  }
}

function text(bytes: Buffer): string {
  return bytes.toString("utf8");
}
