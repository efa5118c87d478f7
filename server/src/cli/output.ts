/** What the program says: the only way to its standard output and its standard error. */
import { terminalLine, terminalText } from "../escape/terminal.js";
import { UNUSABLE } from "./exitStatus.js";

/** Lines for people on standard output. */
export function print(lines: readonly string[]): void {
  process.stdout.write(`${lines.map(terminalLine).join("\n")}\n`);
}

/** Lines for people on standard error. */
export function complain(lines: readonly string[]): void {
  status("");
  process.stderr.write(`${lines.map(terminalLine).join("\n")}\n`);
}

/** A transient message on the last line of a terminal, in place of the one before; empty clears it. Nothing elsewhere. */
export function status(line: string): void {
  const { stderr } = process;
  if (!stderr.isTTY || (line === "" && !stands)) return;
  stands = line !== "";
  // One column is left free: a terminal may break the line when its last is written. One without a size says 0.
  stderr.write(`\r${ERASE_LINE}${terminalLine(line).slice(0, (stderr.columns || USUAL_COLUMNS) - 1)}`);
}

const USUAL_COLUMNS = 80;

/** Whether such a message is on the terminal now. */
let stands = false;

/** From the cursor to the line's end (ECMA-48, EL). */
const ERASE_LINE = "\u001b[K";

/** Data for programs on standard output, escaped by whoever wrote it down. */
export function printData(text: string): void {
  process.stdout.write(`${text}\n`);
}

/** The text of a design on standard output: to the last byte into a file or a pipe, but with nothing that steers a terminal. */
export function printDesign(text: string): void {
  process.stdout.write(process.stdout.isTTY ? terminalText(text) : text);
}

/** A reader that has closed, `head` say, ends the program silently; a full disk is reported. */
export function watchOutput(): void {
  process.stdout.on("error", (error: NodeJS.ErrnoException) => {
    if (error.code !== "EPIPE") complain([`standard output: cannot be written: ${error.message}`]);
    process.exit(error.code === "EPIPE" ? undefined : UNUSABLE);
  });
  process.stderr.on("error", () => process.exit(UNUSABLE));
}
