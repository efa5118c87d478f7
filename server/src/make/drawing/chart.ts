/** A fingering chart for printing: one column per fingering, its note on a staff above, holes from the mouth down, filled where closed. */

import type { Outline } from "../../design/outline/outline.js";
import type { Analysis } from "../../design/predict/analysis.js";
import { signedCents } from "../../design/wording.js";
import { hasHoles } from "../../instrument/families/bodyTraits.js";
import { stopsFoot } from "../../instrument/fingerings.js";
import { hasSmallParts, playersCautions } from "../solid/cautions.js";
import { fitted, wrapped } from "./frame.js";
import { octaveShift, Staff, staffNote } from "./notation.js";
import { PAPER, Pen, type Point, type Sheet } from "./sheet.js";
import { drawTube, type Tube, tubesOf } from "./tubes.js";

export interface ChartOptions {
  /** Whether each note's predicted deviation stands under it. */
  readonly cents: boolean;
  /** On a staff with its name above, or by its name alone. */
  readonly notes: "staff" | "names";
  /** Of the instrument, where the design says enough of it: the cautions depend on its parts. */
  readonly outline: Outline | undefined;
}

const MARGIN = 14;
/** mm between columns, at least and at most: as many as there are share the paper's width. */
const COLUMN = { least: 11, most: 22 } as const;
/** mm between holes; radius of a hole; extra room between the hands. */
const HOLE = 7.6;
const RADIUS = 2.8;
const HANDS = 4;
/** mm between two lines of the staff, and what the clef takes at the left. */
const STAFF_GAP = 1.8;
const CLEF_WIDTH = 9;
/** Left of the columns, for the holes' names. */
const LABELS = 14;
/** Of a pan pipe's widest tube, in columns; mm below a tube for its number. */
const TUBE_SHARE = 0.6;
const TUBE_FOOT = 9;
/** How much darker than half a hole must be to be filled. */
const CLOSED = 0.999;

/** Letters of the cautions at the foot, mm, and characters per line. */
const CAUTION = { size: 2.5, step: 3.4, signs: 150 } as const;

type Prediction = Analysis["fingerings"][number];

export function chartSheet(analysis: Analysis, { cents, notes, outline }: ChartOptions): Sheet {
  const { instrument, fingerings } = analysis;
  const [width, height] = PAPER.A4;
  const pen = new Pen();
  const name = instrument.name ?? "Instrument";
  const key = instrument.key === undefined ? "" : ` in ${instrument.key.name}`;
  pen.text([MARGIN, MARGIN + 4], `${fitted(name, 60)}${key}`, { size: 6 });
  const { body } = instrument;
  const isPipes = !hasHoles(body);
  const anyStops = fingerings.some(({ fingering }) => stopsFoot(fingering, instrument.holes.length));
  const groups = groupsOf(fingerings, isPipes);
  const left = isPipes && notes === "names" ? 0 : LABELS;
  const room = width - 2 * MARGIN - left;
  const most = Math.max(1, ...groups.map(({ columns }) => columns.length));
  const column = Math.min(COLUMN.most, Math.max(COLUMN.least, room / most));
  const perRow = Math.max(1, Math.floor(room / column + 1e-9));
  const chart: Chart = {
    pen,
    column,
    cents,
    octaves: notes === "staff" ? octaveShift(namesOf(fingerings)) : undefined,
    holes: isPipes ? [] : [...instrument.holes.map((hole) => hole.name), ...(anyStops ? ["foot"] : [])],
    tubes: body.kind === "pipes" ? tubesOf(body.pipes, TUBE_SHARE * column) : [],
    left: MARGIN + left,
  };
  let top: number = MARGIN + 8;
  for (const { title, columns } of groups)
    for (let i = 0; i < columns.length; i += perRow)
      top = drawRow(chart, i === 0 ? title : "", columns.slice(i, i + perRow), top, i);
  const heed = playersCautions({ hasSmallParts: outline === undefined || hasSmallParts(outline) });
  const meaning = cents ? ["Numbers: cents that the prediction is off the note."] : [];
  const lines = [...meaning, ...heed.flatMap((line) => wrapped(line, CAUTION.signs))];
  // Longer charts go on down the page: the paper grows rather than lose a note.
  const bottom = Math.max(height, top + MARGIN + 2 + lines.length * CAUTION.step);
  for (const [i, line] of lines.entries())
    pen.text([MARGIN, bottom - 6 - (lines.length - 1 - i) * CAUTION.step], line, { size: CAUTION.size });
  if (!isPipes) legend(pen, [width - MARGIN - 60, bottom - 7]);
  return { title: `${name}: fingerings`, width, height: bottom, marks: pen.marks };
}

interface Chart {
  readonly pen: Pen;
  readonly column: number;
  readonly cents: boolean;
  /** By how many octaves the staff is written differently from its sound; undefined without a staff. */
  readonly octaves: number | undefined;
  readonly holes: readonly string[];
  /** Of a pan pipe, in the order of its fingerings. */
  readonly tubes: readonly (Tube | undefined)[];
  /** Where the columns begin. */
  readonly left: number;
}

function namesOf(columns: readonly Prediction[]): readonly string[] {
  return columns.flatMap(({ fingering }) => fingering.target?.name ?? []);
}

function groupsOf(
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

/** Where the next row may begin. @param index of its first column in its group */
function drawRow(chart: Chart, title: string, columns: readonly Prediction[], top: number, index: number): number {
  const { pen, holes, left, column } = chart;
  if (title !== "") pen.text([MARGIN, top + 6], title, { size: 3.5 });
  const x = (c: number) => left + (c + 0.5) * column;
  const names = top + (title === "" ? 7 : 12);
  for (const [c, { fingering }] of columns.entries())
    pen.text([x(c), names], fingering.target?.name ?? "?", { size: 3.6, anchor: "middle" });
  const staffEnd = chart.octaves === undefined ? names : drawStaff(chart, chart.octaves, columns, names, x);
  const gaps = handGaps(holes);
  const first = staffEnd + RADIUS + 3;
  for (const [h, label] of holes.entries())
    pen.text([MARGIN, holeAt(first, h, gaps) + 1], fitted(label, 6), { size: 3 });
  for (const [c, { fingering }] of columns.entries())
    for (const i of fingering.covers === undefined ? [] : holes.keys())
      drawHole(pen, [x(c), holeAt(first, i, gaps)], fingering.covers?.[i] ?? 0);
  const tubes = chart.tubes.slice(index, index + columns.length);
  for (const [c, tube] of tubes.entries())
    if (tube !== undefined) drawTube(pen, tube, [x(c), staffEnd + 2], index + c + 1);
  const tubesEnd = staffEnd + Math.max(0, ...tubes.map((tube) => (tube?.length ?? 0) + TUBE_FOOT));
  const last = holes.length === 0 ? tubesEnd : holeAt(first, holes.length - 1, gaps) + RADIUS;
  if (!chart.cents) return last + 4;
  for (const [c, { cents }] of columns.entries())
    if (cents !== undefined) pen.text([x(c), last + 4], signedCents(cents), { size: 2.6, anchor: "middle" });
  return last + 8;
}

/** Its lowest sign's end. No higher and no lower than its notes ask for. */
function drawStaff(
  { pen, left, column }: Chart,
  octaves: number,
  columns: readonly Prediction[],
  top: number,
  x: (column: number) => number,
): number {
  const notes = columns.map(({ fingering }) => staffNote(fingering.target?.name ?? "", octaves));
  const places = notes.flatMap((note) => note?.place ?? []);
  // The clef reaches three spaces above and two below; what is an octave off has its number there.
  const isOff = octaves !== 0;
  const highest = Math.max(isOff && octaves < 0 ? 13 : 11, ...places.map((place) => place + 2));
  const lowest = Math.min(isOff && octaves > 0 ? -8 : -4, ...places.map((place) => place - 2));
  const base = top + 1 + (highest * STAFF_GAP) / 2;
  const staff = new Staff(pen, base, STAFF_GAP);
  staff.lines(left - CLEF_WIDTH, left + columns.length * column);
  staff.clef(left - CLEF_WIDTH + 3.4, octaves);
  for (const [c, note] of notes.entries()) if (note !== undefined) staff.note(x(c), note);
  return base - (lowest * STAFF_GAP) / 2;
}

function drawHole(pen: Pen, at: Point, cover: number): void {
  pen.circle(at, RADIUS, cover >= CLOSED ? "black" : "white", "outline");
  if (cover > 0 && cover < CLOSED) pen.area(halfDisc(at), "black", "none");
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
