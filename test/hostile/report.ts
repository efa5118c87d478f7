/** Counts what is tried and found, prints it, and keeps each case that shows a fault under out/hostile/found. */
import { mkdirSync, writeFileSync } from "node:fs";
import { join } from "node:path";
import type { Message } from "./child.js";
import { type Fault, signature } from "./kind.js";

const FOUND = join("out", "hostile", "found");

interface Row {
  readonly kind: string;
  tried: number;
  failed: number;
  /** How often each signature was seen. */
  readonly faults: Map<string, number>;
  readonly begun: number;
}

export class Report {
  private readonly rows: Row[] = [];
  private readonly kept = new Map<string, string>();

  begin(kind: string): void {
    this.rows.push({ kind, tried: 0, failed: 0, faults: new Map(), begun: performance.now() });
  }

  take(message: Message): void {
    const row = this.rows.at(-1);
    if (row === undefined) return;
    if ("said" in message) console.log(`  ${message.said}`);
    else if ("found" in message) this.keep(row, message.found.fault, message.found.given);
    else if ("ended" in message) {
      row.tried++;
      if (message.faults.length > 0) row.failed++;
      for (const fault of message.faults) row.faults.set(fault, (row.faults.get(fault) ?? 0) + 1);
    }
  }

  /** What was found of the kind that has ended. */
  end(): void {
    const row = this.rows.at(-1);
    if (row === undefined) return;
    const seconds = ((performance.now() - row.begun) / 1000).toFixed(0);
    console.log(
      `${row.kind.padEnd(12)} ${String(row.tried).padStart(6)} tried ${String(row.failed).padStart(5)} failed   ${seconds} s`,
    );
    for (const [fault, times] of [...row.faults].toSorted(([, a], [, b]) => b - a))
      console.log(`  ${times} × ${fault}`);
  }

  /** The closing line, and the exit status. */
  close(): void {
    const sum = (of: (row: Row) => number) => this.rows.reduce((all, row) => all + of(row), 0);
    const [tried, failed] = [sum((row) => row.tried), sum((row) => row.failed)];
    for (const [name, fault] of this.kept) console.log(`${name}\n  ${fault.replaceAll("\n", "\n  ")}`);
    console.log(`\n${tried - failed} passed, ${failed} failed (${tried} tried)`);
    if (failed > 0) process.exitCode = 1;
  }

  /** The smaller case of the same fault is written over the first one. */
  private keep({ kind }: Row, fault: Fault, given: unknown): void {
    mkdirSync(FOUND, { recursive: true });
    const words = signature(fault).replace(/[^a-z0-9]+/gi, "-");
    const name = join(FOUND, `${kind}-${words.slice(0, 60).replace(/-$/, "")}`);
    this.kept.set(name, `${fault.rule}: ${fault.detail}`);
    writeFileSync(`${name}.json`, `${JSON.stringify({ kind, given }, null, 2)}\n`);
    const text = (given as { text?: unknown } | undefined)?.text;
    if (typeof text === "string") writeFileSync(`${name}.txt`, text);
  }
}
