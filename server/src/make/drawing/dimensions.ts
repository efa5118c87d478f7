/** Dimensions by ISO 129-1: running ones from one origin, an extension line to each place and its value at the line's end; and single ones with arrowheads. */
import type { Pen, Point } from "./sheet.js";

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

/** mm: from what is measured to the extension line, beyond the dimension line; an arrowhead's length and half its width. */
const GAP = 1;
const BEYOND = 1.5;
const ARROW = { length: 2.5, half: 0.45 } as const;

/** From one place to another along the sheet, below both. @param y of the dimension line */
export function drawAcross(pen: Pen, [[x0, y0], [x1, y1]]: readonly [Point, Point], y: number, text: string): void {
  for (const [x, from] of [
    [x0, y0],
    [x1, y1],
  ] as const)
    pen.line([
      [x, from + GAP],
      [x, y + BEYOND],
    ]);
  pen.line([
    [x0, y],
    [x1, y],
  ]);
  for (const [x, way] of [
    [x0, 1],
    [x1, -1],
  ] as const)
    arrow(pen, [x, y], [way, 0]);
  pen.text([(x0 + x1) / 2, y - 1], text, { size: TEXT, anchor: "middle" });
}

/** From one place up to another, left of both, read from the right. @param x of the dimension line */
export function drawUpward(pen: Pen, [[x0, y0], [x1, y1]]: readonly [Point, Point], x: number, text: string): void {
  for (const [y, from] of [
    [y0, x0],
    [y1, x1],
  ] as const)
    pen.line([
      [from - GAP, y],
      [x - BEYOND, y],
    ]);
  pen.line([
    [x, y0],
    [x, y1],
  ]);
  for (const [y, way] of [
    [y0, -1],
    [y1, 1],
  ] as const)
    arrow(pen, [x, y], [0, way]);
  pen.text([x - 1, (y0 + y1) / 2], text, { size: TEXT, anchor: "middle", upward: true });
}

function arrow(pen: Pen, [x, y]: Point, [u, v]: Point): void {
  const [bx, by] = [x + ARROW.length * u, y + ARROW.length * v];
  pen.area(
    [
      [x, y],
      [bx - ARROW.half * v, by + ARROW.half * u],
      [bx + ARROW.half * v, by - ARROW.half * u],
    ],
    "black",
    "none",
  );
}
