/** How far a long check is, on a terminal. */
import { status } from "../output.js";

/** A check that is done sooner shows no progress, ms. */
const QUIET = 300;
/** A line changes no faster than it can be read, ms. */
const PAUSE = 100;

export class Progress {
  private count = 0;
  private told = Date.now() + QUIET - PAUSE;

  constructor(private readonly total: number) {}

  done(file: string): void {
    this.count++;
    const now = Date.now();
    if (now - this.told < PAUSE) return;
    this.told = now;
    status(`${this.count} of ${this.total}: ${file}`);
  }

  /** Leaves nothing of it on the terminal. */
  end(): void {
    status("");
  }
}
