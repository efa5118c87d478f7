/** What the program says: the only way to its standard output and its standard error. */
import { terminalLine, terminalText } from "../escape/terminal.js";
import { UNUSABLE } from "./exitStatus.js";

/** Lines for people on standard output. */
export function print(lines: readonly string[]): void {
  process.stdout.write(`${lines.map(terminalLine).join("\n")}\n`);
}

/** Lines for people on standard error. */
export function complain(lines: readonly string[]): void {
  process.stderr.write(`${lines.map(terminalLine).join("\n")}\n`);
}

/** Data for programs on standard output, escaped by whoever wrote it down. */
export function printData(text: string): void {
  process.stdout.write(`${text}\n`);
}

/** The text of a design on standard output: to the last byte into a file or a pipe, but with nothing that steers a terminal. */
export function printDesign(text: string): void {
  process.stdout.write(process.stdout.isTTY ? terminalText(text) : text);
}

/** A reader that has heard enough, `head` say, ends the program without a word; a full disk is told. */
export function watchOutput(): void {
  process.stdout.on("error", (error: NodeJS.ErrnoException) => {
    if (error.code !== "EPIPE") complain([`standard output: cannot be written: ${error.message}`]);
    process.exit(error.code === "EPIPE" ? undefined : UNUSABLE);
  });
  process.stderr.on("error", () => process.exit(UNUSABLE));
}
