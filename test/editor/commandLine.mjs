/** What the command line says of a file: the editor is held against it, as both stand on the same services. */
import { execFileSync } from "node:child_process";
import { fileURLToPath } from "node:url";

const PROGRAM = fileURLToPath(new URL("../../dist/cli.cjs", import.meta.url));
const FINDINGS_STATUS = 1;

/**
 * `check`: every finding, and whether the file passes with `--fail-on warning`.
 * @returns {{ passes: boolean, findings: { code: string, severity: string, message: string, line: number, column: number }[] }}
 */
export function check(file) {
  const { status, data } = run(["check", "--format", "json", "--fail-on", "warning", file]);
  return { passes: status === 0, findings: data };
}

/**
 * `pitch` of a file with one instrument.
 * @returns {{ key: string, worstCents: number,
 *   fingerings: { note: string, holes: string, targetHz: number, predictedHz: number, cents: number }[] }}
 */
export function pitch(file) {
  return run(["pitch", "--json", file]).data[0];
}

function run(command) {
  try {
    return { status: 0, data: JSON.parse(execFileSync(process.execPath, [PROGRAM, ...command], { encoding: "utf8" })) };
  } catch (error) {
    if (error.status !== FINDINGS_STATUS) throw error; // its message holds what the program said on stderr
    return { status: error.status, data: JSON.parse(error.stdout) };
  }
}
