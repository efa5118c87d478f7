/** Running dimensions from one origin (ISO 129-1): an extension line to each place, its value at the line's end, read from the right. */
import type { Pen } from "./sheet.js";

export interface Place {
  /** On paper. */
  readonly x: number;
  readonly from: number;
  readonly text: string;
}

/** Least distance of two values on paper, mm. */
const APART = 3.6;
const TEXT = 2.8;

/** @param to where the values stand, below the view */
export function drawRunning(pen: Pen, places: readonly Place[], to: number): void {
  const sorted = [...places].sort((a, b) => a.x - b.x);
  const shown: number[] = [];
  for (const [i, { x }] of sorted.entries())
    shown.push(Math.max(x, (shown[i - 1] ?? Number.NEGATIVE_INFINITY) + APART));
  for (const [i, { x, from, text }] of sorted.entries()) {
    const at = shown[i] ?? x;
    pen.line([
      [x, from],
      [x, to - 4],
      [at, to - 1],
    ]);
    pen.text([at + TEXT / 3, to], text, { size: TEXT, anchor: "end", upward: true });
  }
}
