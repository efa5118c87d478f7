/** A pan pipe on its sheet: cut through the row, and a table of its pipes. */
import type { PipesOutline } from "../../design/outline/outline.js";
import { type Framed, rectangle } from "./frame.js";
import { type DrawOptions, lengthIn, type Point } from "./sheet.js";
import { drawTable } from "./table.js";

/** Letters' height on paper, mm, and their width in shares of it, about. */
const SIZE = 2.8;
const LETTER = 0.55;

export function drawPipes(
  { pipes, wall }: PipesOutline,
  at: (z: number, y: number) => Point,
  { pen, from }: Framed,
  below: number,
  { unit, paper }: DrawOptions,
): void {
  const length = lengthIn(unit);
  for (const { x, diameter, length: inner, to, note } of pipes) {
    const outer = diameter / 2 + wall;
    const rect = (z0: number, y0: number, z1: number, y1: number) => rectangle(...at(z0, y0), ...at(z1, y1));
    pen.area(rect(0, -x - outer, to, -x + outer), "cut");
    pen.area(rect(0, -x - diameter / 2, to, -x + diameter / 2), "white", "thin");
    pen.area(rect(inner, -x - diameter / 2, to, -x + diameter / 2), "other-cut", "thin");
    const [[left, y], [right], [end]] = [at(-4, -x), at(inner, -x), at(to + 4, -x)];
    const high = Math.min(SIZE, 0.8 * Math.abs(at(0, diameter)[1] - at(0, 0)[1]));
    const words = `${note === undefined ? "" : `${note}  `}${length(inner)}  ⌀${length(diameter)}`;
    // The axis leaves room for the words on it.
    const middle = (at(0, 0)[0] + right) / 2;
    const half = (words.length * LETTER * high) / 2 + 1;
    pen.line(
      [
        [left, y],
        [middle - half, y],
      ],
      "axis",
    );
    pen.line(
      [
        [middle + half, y],
        [end, y],
      ],
      "axis",
    );
    pen.text([middle, y + 0.35 * high], words, { size: high, anchor: "middle" });
  }
  const words = `Lengths from the rim to the stopper. Walls ${length(wall)}, shared between neighbours.`;
  pen.text([from[0] + 8, below + 8], words, { size: SIZE });
  const rows = pipes.map(({ note, length: inner, diameter, to, stopper }, i) => [
    String(i + 1),
    note ?? "–",
    length(inner),
    length(diameter),
    length(to),
    length(2 * stopper.radius),
    length(stopper.to - stopper.from),
  ]);
  drawTable(pen, [from[0] + 8, below + 16], COLUMNS, rows, paper === "A4" ? 10 : 40);
}

const COLUMNS = [
  { head: "pipe", width: 10 },
  { head: "note", width: 14 },
  { head: "to stopper", width: 20 },
  { head: "⌀", width: 14 },
  { head: "tube", width: 18 },
  { head: "stopper ⌀", width: 20 },
  { head: "long", width: 12 },
] as const;
