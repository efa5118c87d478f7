/**
 * The built program, command after command in one process beside the tests: a process for each command costs ten times as much,
 * for all it does is done cold. What belongs to a process alone (standard input, threads, signals, broken files) has tests that
 * start one: cli/check, cli/trouble, server/protocol.
 */
import { type ChildProcess, fork } from "node:child_process";
import { join } from "node:path";

export const PROGRAM = join(import.meta.dirname, "../../dist/cli.cjs");
const HOST = join(import.meta.dirname, "programHost.cjs");

export interface Ran {
  readonly status: number;
  readonly stdout: string;
  readonly stderr: string;
}

const hosts = new Map<string, ChildProcess>();

/** One command and what it said. Commands are run one after the other. */
export function runProgram(
  words: readonly string[],
  cwd: string,
  { env = process.env, program = PROGRAM }: { env?: NodeJS.ProcessEnv; program?: string } = {},
): Promise<Ran> {
  const host = hosts.get(program) ?? fork(HOST, [program]);
  hosts.set(program, host);
  return new Promise((resolve, reject) => {
    const ended = () => {
      hosts.delete(program);
      reject(new Error(`The program ended at: ${words.join(" ")}`));
    };
    host.once("exit", ended);
    host.once("message", (ran) => {
      host.off("exit", ended);
      resolve(ran as Ran);
    });
    host.send({ words, cwd, env });
  });
}
