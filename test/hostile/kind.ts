/** What a kind of abuse is: how its cases are drawn, tried and made smaller. */
import type { Runner } from "./commandLine.js";
import type { Random } from "./random.js";

export interface Fault {
  /** What may not happen: `crash`, `broken file`, `moved silently`… */
  readonly rule: string;
  /** What was seen. */
  readonly detail: string;
}

/** One way to take a case apart: the pieces it is made of, and the case that some of them make. */
export interface Parts<Case> {
  of(given: Case): readonly unknown[];
  from(given: Case, pieces: readonly never[]): Case;
}

/** A case is plain JSON, so that it can be kept in a file and tried again. */
export interface Kind<Case> {
  readonly name: string;
  /** Its share of the time, relative to the others. */
  readonly share: number;
  draw(random: Random): Case;
  /** @param run how commands are run that need no process of their own; default: each in its own */
  check(given: Case, run?: Runner): Promise<readonly Fault[]>;
  /** Coarse ones first. */
  readonly parts: readonly Parts<Case>[];
  /** Says figures at the end. */
  end?(say: (line: string) => Promise<void>): Promise<void>;
}

/** Two faults with one signature are reported once: their texts differ only in numbers and quoted words. */
export function signature({ rule, detail }: Fault): string {
  const [first = ""] = detail.split("\n");
  return `${rule}: ${first.replace(/"[^"]*"|'[^']*'|`[^`]*`/g, "…").replace(/-?\d+(\.\d+)?/g, "0")}`.slice(0, 160);
}

/** A fault as something thrown shows it: its message, and the first lines of ours it came through. */
export function thrown(rule: string, error: unknown): Fault {
  if (!(error instanceof Error)) return { rule, detail: String(error) };
  const lines = (error.stack ?? error.message).split("\n");
  return { rule, detail: lines.slice(0, 4).join("\n") };
}
