/**
 * The drilling template: a tube's surface unrolled at full size, to be cut out and wrapped round it. The front is the middle line; the
 * edges meet at the back. Long ones go on in strips. A line of 100 mm shows whether the paper was printed at full size.
 */
import type { HoleOutline, TubeOutline } from "../../design/outline/outline.js";
import { radiusOn } from "../../design/outline/tube.js";
import { framed } from "./frame.js";
import { type DrawOptions, type Pen, type Point, type Sheet, shortNumber } from "./sheet.js";

const CHECK = 100;
const MARGIN = 8;

export function templateSheets(
  tube: TubeOutline,
  name: string,
  { paper, unit, unitName }: DrawOptions,
): readonly Sheet[] {
  const [from, to] = [Math.min(0, tube.from), tube.to];
  const around = 2 * Math.PI * Math.max(...tube.outside.map(([, radius]) => radius));
  const probe = framed(paper, { name, scale: "1:1", what: "", unit: "", sheet: "" });
  const room = [probe.to[0] - probe.from[0] - 2 * MARGIN, probe.to[1] - probe.from[1] - 3 * MARGIN] as const;
  const rows = Math.max(1, Math.floor(room[1] / (around + MARGIN)));
  const strips = stripsOf(tube, from, to, room[0]);
  const count = Math.ceil(strips.length / rows);
  return Array.from({ length: count }, (_, page) => {
    const sheet = `sheet ${page + 2} of ${count + 1}`;
    const frame = framed(paper, { name, scale: "1:1", what: "Drilling template", unit: unitName, sheet });
    const { pen } = frame;
    const care = "Clamp the tube, drill small first, wear eye protection; follow local workshop rules.";
    pen.text([frame.from[0] + MARGIN + CHECK + 6, frame.to[1] - MARGIN / 2], care, { size: 2.2 });
    checkLine(pen, [frame.from[0] + MARGIN, frame.to[1] - MARGIN / 2]);
    for (const [row, [start, end]] of strips.slice(page * rows, (page + 1) * rows).entries()) {
      const middle: Point = [frame.from[0] + MARGIN, frame.from[1] + MARGIN + (row + 0.5) * around + row * MARGIN];
      strip(pen, tube, [start, end], middle, unit);
    }
    return frame.finished();
  });
}

/** Stretches of the tube, none longer than the paper, split where there is no hole. */
function stripsOf(tube: TubeOutline, from: number, to: number, most: number): readonly Point[] {
  const strips: Point[] = [];
  let start = from;
  while (start < to - 1e-6) {
    let end = Math.min(to, start + most);
    for (const hole of [...tube.holes].reverse()) {
      const [first, last] = [hole.at - hole.length / 2 - EDGE, hole.at + hole.length / 2 + LABEL];
      if (end < to && first < end && end < last && first > start) end = first;
    }
    strips.push([start, end]);
    start = end;
  }
  return strips;
}

/** Paper left before a hole, and for its label after it, mm. */
const EDGE = 3;
const LABEL = 16;

function strip(pen: Pen, tube: TubeOutline, [start, end]: Point, [x0, y0]: Point, unit: number): void {
  const x = (z: number) => x0 + z - start;
  const half = (z: number) => Math.PI * radiusOn(tube.outside, z);
  const zs = [start, ...tube.outside.map(([z]) => z).filter((z) => z > start && z < end), end];
  const upper = zs.map((z): Point => [x(z), y0 - half(z)]);
  const lower = zs.map((z): Point => [x(z), y0 + half(z)]).reverse();
  pen.area([...upper, ...lower], "none", "thin");
  pen.line(
    [
      [x(start), y0],
      [x(end), y0],
    ],
    "axis",
  );
  const words = `from ${shortNumber(start / unit)} to ${shortNumber(end / unit)} of the mouth; the middle line is the front`;
  pen.text([x(start) + 2, y0 - half(start) + 5], words, { size: 2.2 });
  for (const hole of tube.holes) if (hole.at >= start && hole.at < end) drawHole(pen, hole, tube, x(hole.at), y0, unit);
  if (start <= 0 && end >= 0) pen.text([x(0), y0 + 4], "mouth", { size: 2.2, anchor: "middle" });
}

/** Twice where it lies at the edges' seam. */
function drawHole(pen: Pen, hole: HoleOutline, tube: TubeOutline, x: number, y0: number, unit: number): void {
  const outer = radiusOn(tube.outside, hole.at);
  const turn = ((((hole.angle + 180) % 360) + 360) % 360) - 180;
  const y = y0 - (turn * Math.PI * outer) / 180;
  const places = Math.abs(turn) > 180 - 1e-9 ? [y0 - Math.PI * outer, y0 + Math.PI * outer] : [y];
  for (const at of places) {
    // On the curved surface a drilled hole is longer across: from where the drill's edges meet it.
    const across = outer * Math.asin(Math.min(1, hole.width / 2 / outer));
    const points = Array.from({ length: 48 }, (_, i): Point => {
      const t = (2 * Math.PI * i) / 48;
      return [x + (hole.length / 2) * Math.cos(t), at + across * Math.sin(t)];
    });
    pen.area(points, "none", "thin");
    pen.cross([x, at], 1.5);
    pen.text([x + hole.length / 2 + 1, at - 1], `${hole.name} ⌀${shortNumber(hole.width / unit)}`, { size: 2.2 });
  }
}

function checkLine(pen: Pen, [x, y]: Point): void {
  pen.line([
    [x, y],
    [x + CHECK, y],
  ]);
  for (const end of [x, x + CHECK])
    pen.line([
      [end, y - 1.5],
      [end, y + 1.5],
    ]);
  pen.text([x + CHECK / 2, y - 1], "this line is 100 mm long; if not, print again at full size", {
    size: 2.2,
    anchor: "middle",
  });
}
