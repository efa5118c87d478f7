/** Text for a terminal or the log of a build. */
import { visible, visibleLines } from "./visible.js";

/**
 * One line. Nothing in it steers the terminal, and nothing is a command to the runner of a GitHub workflow, which reads
 * everything a step prints: `::name …` at a line's start, and `##[name]` of its older form anywhere.
 */
export function terminalLine(text: string): string {
  return visible(text).replace(RUNNER_COMMAND, (sign) => `\\u{${sign.charCodeAt(0).toString(16)}}${sign.slice(1)}`);
}

/** The runner skips blanks before a command. */
const RUNNER_COMMAND = /(?<=^\s*):(?=:)|#(?=#\[)/g;

/** A whole text shown as it is, but for what would steer the terminal. */
export function terminalText(text: string): string {
  return visibleLines(text.replaceAll("\r\n", "\n"));
}
