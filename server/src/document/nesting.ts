/**
 * How much there is to read, and how deeply values are nested. What comes after lexing is recursive, and a stack overflow
 * inside a regular expression ends the whole process: such text must never reach it.
 */

import { t } from "../words/translation.js";
import type { TextProblem } from "./parsed.js";

/** Far deeper than any design, and a tenth of the depth at which the parsers were seen to fail. */
export const MOST_NESTED = 80;

/**
 * Words, signs and gaps of one design that are read: 100 holes, 50 fingerings and 500 measured notes have 18,000. The most that is
 * allowed takes some 50 ms (npm run bench reading), the longest piece of work that typing waits for.
 */
export const MOST_LEXEMES = 20_000;

/** A problem that still has no place. */
export type UnplacedProblem = Omit<TextProblem, "span">;

/** What the parsers threw: a stack overflow, or a fault of theirs. */
export function unreadable(error: unknown): UnplacedProblem {
  if (error instanceof RangeError) return tooDeep();
  const message = t`This cannot be read: ${error instanceof Error ? error.message : String(error)}.`;
  return { code: "file/syntax", severity: "error", message };
}

export function tooDeep(): UnplacedProblem {
  const message = t(
    "Values are nested too deep to be read. A design needs four or five levels: is a bracket or quote not closed?",
  );
  return { code: "file/too-deep", severity: "error", message };
}

/** `count` is what there is, counted to the end. */
export function tooLarge(count: number): UnplacedProblem {
  const message = t`This design has ${inThousands(count)} words, signs and gaps; at most ${inThousands(MOST_LEXEMES)} are read. Remove what it does not need, or give each instrument a design of its own.`;
  return { code: "file/too-large", severity: "error", message };
}

function inThousands(count: number): string {
  return String(count).replace(/\B(?=(\d{3})+$)/g, " ");
}

/** Whether brackets are nested too deep. Those in quotes count too: the estimate errs upward. */
export function bracketsTooDeep(text: string): boolean {
  let depth = 0;
  for (const [bracket] of text.matchAll(/[[\]{}]/g)) {
    depth = Math.max(0, depth + (bracket === "[" || bracket === "{" ? 1 : -1));
    if (depth > MOST_NESTED) return true;
  }
  return false;
}

/** Of JSON: each sign goes with one word, as a rule. */
export function jsonLexemes(text: string): number {
  let count = 0;
  for (const _ of text.matchAll(/[[\]{}:,]/g)) count += 2;
  return count;
}
