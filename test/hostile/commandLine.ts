/** The command line in a process of its own, and what it leaves behind. */
import { spawn } from "node:child_process";
import { readFileSync } from "node:fs";
import { resolve } from "node:path";
import type { Fault } from "./kind.js";

export interface Ran {
  readonly args: readonly string[];
  readonly code: number | null;
  readonly signal: string | null;
  readonly stdout: string;
  readonly stderr: string;
  /** It had to be ended because it took too long. */
  readonly overdue: boolean;
  /** Most memory it ever held, MiB. */
  readonly peak: number;
}

export interface Circumstances {
  readonly cwd?: string;
  /** ms. */
  readonly patience?: number;
  /** It is killed after this many ms. */
  readonly killedAfter?: number;
  /** As which user, where we may choose. */
  readonly uid?: number;
  /** Largest file it may write, in blocks of 1024 bytes: a disk that is full. */
  readonly fileLimit?: number;
}

/** Runs one command and tells what it did. */
export type Runner = (args: readonly string[], given?: Circumstances) => Promise<Ran>;

const PATIENCE = 30_000;
/** A program of this size reads 1 MB of text with far less. */
const MOST_MEMORY = 1024;

export function run(args: readonly string[], given: Circumstances = {}): Promise<Ran> {
  const cli = resolve("dist/cli.cjs");
  const { cwd, uid, patience = PATIENCE, killedAfter, fileLimit } = given;
  const options = { ...(cwd !== undefined && { cwd }), ...(uid !== undefined && { uid, gid: uid }) };
  // `$@` passes every name as it is, whatever stands in it.
  const child =
    fileLimit === undefined
      ? spawn(process.execPath, [cli, ...args], options)
      : spawn(
          "/bin/bash",
          ["-c", `trap '' XFSZ; ulimit -f ${fileLimit}; exec "$@"`, "-", process.execPath, cli, ...args],
          options,
        );
  child.stdin.end();
  let [stdout, stderr, peak, overdue] = ["", "", 0, false];
  child.stdout.on("data", (data: Buffer) => {
    stdout += data.toString();
  });
  child.stderr.on("data", (data: Buffer) => {
    stderr += data.toString();
  });
  const watching = setInterval(() => {
    peak = Math.max(peak, memoryOf(child.pid));
  }, 100);
  const late = setTimeout(() => {
    overdue = true;
    child.kill("SIGKILL");
  }, patience);
  const killing = killedAfter === undefined ? undefined : setTimeout(() => child.kill("SIGKILL"), killedAfter);
  return new Promise((done) => {
    child.on("close", (code, signal) => {
      clearInterval(watching);
      clearTimeout(late);
      clearTimeout(killing);
      done({ args, code, signal, stdout, stderr, overdue, peak });
    });
  });
}

/** MiB; 0 where the system does not tell. */
function memoryOf(pid: number | undefined): number {
  try {
    return Number(/VmHWM:\s+(\d+)/.exec(readFileSync(`/proc/${pid}/status`, "utf8"))?.[1] ?? 0) / 1024;
  } catch {
    return 0;
  }
}

// biome-ignore lint/suspicious/noControlCharactersInRegex: these are what is looked for
const INVISIBLE = /[\u0000-\u0008\u000b\u000c\u000e-\u001f\u007f-\u009f\u202a-\u202e\u2066-\u2069]/;
const NONSENSE = /\bNaN\b|\bundefined\b|\bInfinity\b|\[object /;

/** What no run may show, whatever it was given. `text` is what the design itself says. */
export function runFaults({ args, code, signal, stdout, stderr, overdue, peak }: Ran, text: string): readonly Fault[] {
  const [command = ""] = args;
  const fault = (rule: string, detail: string): Fault => ({ rule, detail: `${command}: ${detail}\n${args.join(" ")}` });
  if (overdue) return [fault("hang", "does not end")];
  const faults: Fault[] = [];
  if (/\n {4}at |Error:/.test(stderr) && !text.includes("Error:"))
    faults.push(fault("crash", stderr.split("\n").slice(0, 8).join("\n")));
  else if (signal !== null || ![0, 1, 2].includes(code ?? -1))
    faults.push(fault("crash", `ended with ${signal ?? code}`));
  if (peak > MOST_MEMORY) faults.push(fault("memory", `${peak.toFixed(0)} MiB`));
  if (INVISIBLE.test(stderr)) faults.push(fault("not escaped", JSON.stringify(stderr).slice(0, 300)));
  // What is printed of the design itself is the design as it is.
  const printsDesign = /^(rekey|retune)$/.test(command);
  if (!printsDesign && INVISIBLE.test(stdout)) faults.push(fault("not escaped", JSON.stringify(stdout).slice(0, 300)));
  const nonsense = NONSENSE.exec(stdout + stderr)?.[0];
  if (nonsense !== undefined && !text.includes(nonsense))
    faults.push(fault("nonsense shown", (stdout + stderr).split("\n").find((line) => line.includes(nonsense)) ?? ""));
  if (args.includes("--json") && code === 0 && !parses(stdout)) faults.push(fault("no JSON", stdout.slice(0, 200)));
  return faults;
}

function parses(text: string): boolean {
  try {
    JSON.parse(text);
    return true;
  } catch {
    return false;
  }
}
