/** A fingering chart for printing: one column a fingering, holes from the mouth down, filled where they are closed. */
import type { Analysis } from "../../design/predict/analysis.js";
import { signedCents } from "../../design/wording.js";
import { fitted } from "./frame.js";
import { PAPER, Pen, type Point, type Sheet } from "./sheet.js";

export interface ChartOptions {
  /** Whether each note's predicted deviation stands under it. */
  readonly cents: boolean;
}

const MARGIN = 14;
/** mm between columns and between holes; radius of a hole; extra room between the hands. */
const COLUMN = 12;
const HOLE = 8;
const RADIUS = 2.7;
const HANDS = 5;
/** How much darker than half a hole must be to be filled. */
const CLOSED = 0.999;

export function chartSheet(analysis: Analysis, { cents }: ChartOptions): Sheet {
  const { instrument, fingerings } = analysis;
  const [width, height] = PAPER.A4;
  const pen = new Pen();
  const name = instrument.name ?? "Instrument";
  const key = instrument.key === undefined ? "" : ` in ${instrument.key.name}`;
  pen.text([MARGIN, MARGIN + 4], `${fitted(name, 60)}${key}`, { size: 6 });
  const isPipes = instrument.body.kind === "pipes";
  const holes = instrument.holes.map((hole) => hole.name);
  const gaps = handGaps(holes);
  const columnHeight = isPipes ? 22 : 24 + holes.length * HOLE + gaps.filter(Boolean).length * HANDS;
  const labels = isPipes ? 0 : 14;
  const perRow = Math.max(1, Math.floor((width - 2 * MARGIN - labels) / COLUMN));
  let top = MARGIN + 14;
  for (const group of groups(fingerings, isPipes)) {
    for (let i = 0; i < group.columns.length; i += perRow) {
      if (i === 0 && group.title !== "") pen.text([MARGIN, top], group.title, { size: 3.5 });
      const y = top + 8;
      if (!isPipes)
        for (const [h, label] of holes.entries())
          pen.text([MARGIN, holeAt(y + 6, h, gaps) + 1], fitted(label, 6), { size: 3 });
      for (const [c, column] of group.columns.slice(i, i + perRow).entries())
        drawColumn(pen, column, [MARGIN + labels + (c + 0.5) * COLUMN, y], gaps, cents);
      top += columnHeight;
    }
  }
  // Longer charts go on down the page: the paper grows rather than lose a note.
  const bottom = Math.max(height, top + MARGIN);
  const meaning = cents ? "Numbers: cents that the prediction is off the note. " : "";
  pen.text([MARGIN, bottom - 6], `${meaning}Wash the instrument before another player takes it.`, { size: 2.5 });
  legend(pen, [width - MARGIN - 60, bottom - 7]);
  return { title: `${name}: fingerings`, width, height: bottom, marks: pen.marks };
}

type Prediction = Analysis["fingerings"][number];

function groups(
  fingerings: readonly Prediction[],
  isPipes: boolean,
): readonly { title: string; columns: readonly Prediction[] }[] {
  if (isPipes) return [{ title: "", columns: fingerings }];
  const registers = [...new Set(fingerings.map(({ fingering }) => fingering.register))].sort((a, b) => a - b);
  return registers.map((register) => ({
    title: registers.length === 1 ? "" : `Register ${register}`,
    columns: fingerings.filter(({ fingering }) => fingering.register === register),
  }));
}

function drawColumn(
  pen: Pen,
  { fingering, cents }: Prediction,
  [x, y]: Point,
  gaps: readonly boolean[],
  withCents: boolean,
): void {
  pen.text([x, y], fingering.target?.name ?? "?", { size: 4, anchor: "middle" });
  for (const [i, cover] of (fingering.covers ?? []).entries()) {
    const at: Point = [x, holeAt(y + 6, i, gaps)];
    const isHalf = cover > 0 && cover < CLOSED;
    pen.circle(at, RADIUS, cover >= CLOSED ? "black" : "white", "outline");
    if (isHalf) pen.area(halfDisc(at), "black", "none");
  }
  if (withCents && cents !== undefined) {
    const last = holeAt(y + 6, (fingering.covers ?? []).length - 1, gaps);
    pen.text([x, last + RADIUS + 5], signedCents(cents), { size: 2.6, anchor: "middle" });
  }
}

function holeAt(top: number, index: number, gaps: readonly boolean[]): number {
  return top + index * HOLE + gaps.slice(0, index + 1).filter(Boolean).length * HANDS;
}

/** Room before a hole where the other hand begins. */
function handGaps(names: readonly string[]): readonly boolean[] {
  const hand = (name: string | undefined) => /^[LR]/.exec(name ?? "")?.[0];
  return names.map(
    (name, i) =>
      i > 0 && hand(name) !== undefined && hand(names[i - 1]) !== undefined && hand(name) !== hand(names[i - 1]),
  );
}

function halfDisc([x, y]: Point): readonly Point[] {
  return Array.from({ length: 17 }, (_, i): Point => {
    const turn = Math.PI / 2 + (Math.PI * i) / 16;
    return [x + RADIUS * Math.cos(turn), y + RADIUS * Math.sin(turn)];
  });
}

function legend(pen: Pen, [x, y]: Point): void {
  const signs = [
    ["closed", "black"],
    ["open", "white"],
    ["half closed", "white"],
  ] as const;
  for (const [i, [word, fill]] of signs.entries()) {
    const at: Point = [x + i * 20, y];
    pen.circle(at, RADIUS / 1.6, fill, "thin");
    if (i === 2)
      pen.area(
        halfDisc([0, 0]).map(([u, v]): Point => [at[0] + u / 1.6, at[1] + v / 1.6]),
        "black",
        "none",
      );
    pen.text([at[0] + 3, y + 1], word, { size: 2.5 });
  }
}
