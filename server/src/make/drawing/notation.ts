/**
 * Staff notation as plain marks: five lines, a G clef, note heads, accidentals, ledger lines. The signs are our own drawings of what
 * every engraver draws; sizes in distances between two lines. Common practice, no source.
 */
import type { Pen, Point } from "./sheet.js";

/** A note's place: lines and spaces counted from the lowest line, E4 in a G clef, and what stands before it. */
export interface StaffNote {
  readonly place: number;
  readonly accidental: string;
}

/** Places of the outer lines. */
const LOWEST = 0;
const HIGHEST = 8;
/** The G clef's line is the second. */
const G_LINE = 2;

/** Undefined for what is not a name such as `F#5`. @param octaves written higher than it sounds; an octave clef says so */
export function staffNote(name: string, octaves = 0): StaffNote | undefined {
  const [, letter = "", accidental = "", octave = ""] = /^([A-G])(#{0,2}|b{0,2})(-?\d+)$/.exec(name) ?? [];
  if (letter === "") return undefined;
  return { place: 7 * (Number(octave) + octaves - 4) + "CDEFGAB".indexOf(letter) - 2, accidental };
}

/** Ledger lines that a place needs. */
export function ledgersOf(place: number): number {
  return Math.max(0, Math.floor((LOWEST - place) / 2), Math.floor((place - HIGHEST) / 2));
}

/** Most ledger lines that are still read at sight. Common practice, no source. */
const LEGIBLE = 3;

/** Notes that may lie farther out than the others, as a share of all. */
const STRAY = 0.1;

/** By how many octaves notes are written differently from their sound: none where few ledger lines suffice. */
export function octaveShift(names: readonly string[]): number {
  const most = (shift: number) => {
    const ledgers = names.map((name) => ledgersOf(staffNote(name, shift)?.place ?? 0)).sort((a, b) => a - b);
    return ledgers[Math.floor((1 - STRAY) * (ledgers.length - 1))] ?? 0;
  };
  const shifts = [0, -1, 1, -2, 2];
  const legible = shifts.find((shift) => most(shift) <= LEGIBLE);
  return legible ?? shifts.reduce((best, shift) => (most(shift) < most(best) ? shift : best), 0);
}

export class Staff {
  /** @param y of the lowest line @param gap between two lines, mm */
  constructor(
    private readonly pen: Pen,
    private readonly y: number,
    private readonly gap: number,
  ) {}

  lines(from: number, to: number): void {
    for (let place = LOWEST; place <= HIGHEST; place += 2) this.line(from, to, place);
  }

  /** @param octaves that the notes are written higher than they sound: an 8 stands below for one, above where they are written lower */
  clef(x: number, octaves: number): void {
    const at = ([u, v]: Point): Point => [x + u * this.gap, this.at(G_LINE) - v * this.gap];
    this.pen.area(brushed(CLEF).map(at), "black", "none");
    this.pen.circle(at(BALL), BALL_RADIUS * this.gap, "black", "none");
    if (octaves === 0) return;
    const number = Math.abs(octaves) === 1 ? "8" : "15";
    this.pen.text(at(octaves > 0 ? [0, -4.6] : [0.3, 5.3]), number, { size: 1.7 * this.gap, anchor: "middle" });
  }

  note(x: number, { place, accidental }: StaffNote): void {
    const { gap } = this;
    for (let line = LOWEST - 2; line >= place; line -= 2) this.line(x - gap, x + gap, line);
    for (let line = HIGHEST + 2; line <= place; line += 2) this.line(x - gap, x + gap, line);
    const y = this.at(place);
    this.pen.area(
      HEAD.map(([u, v]): Point => [x + u * gap, y - v * gap]),
      "black",
      "none",
    );
    [...accidental].forEach((sign, i) => {
      const left = x - (1.25 + 0.9 * (accidental.length - i)) * gap;
      const strokes = sign === "#" ? SHARP : FLAT;
      for (const stroke of strokes)
        this.pen.area(
          stroke.map(([u, v]): Point => [left + u * gap, y - v * gap]),
          "black",
          "none",
        );
    });
  }

  private line(from: number, to: number, place: number): void {
    const y = this.at(place);
    this.pen.line([
      [from, y],
      [to, y],
    ]);
  }

  private at(place: number): number {
    return this.y - (place * this.gap) / 2;
  }
}

/** Middle of the brush and its width: from the clef's inner end round the G line, up, over and down to its foot. Upward is positive. */
type Stroke = readonly (readonly [x: number, y: number, width: number])[];
const CLEF: Stroke = [
  [0.3, -0.62, 0.1],
  [-0.3, -0.4, 0.16],
  [-0.42, 0.2, 0.2],
  [0.1, 0.72, 0.26],
  [0.8, 0.45, 0.3],
  [1.0, -0.25, 0.3],
  [0.45, -0.92, 0.2],
  [-0.5, -0.9, 0.2],
  [-1.2, -0.1, 0.3],
  [-1.12, 0.95, 0.36],
  [-0.35, 2.0, 0.34],
  [0.4, 2.95, 0.28],
  [0.62, 3.9, 0.24],
  [0.35, 4.62, 0.12],
  [-0.05, 4.25, 0.3],
  [-0.22, 3.3, 0.26],
  [0.02, 1.8, 0.18],
  [0.32, -0.1, 0.18],
  [0.56, -1.7, 0.18],
  [0.4, -2.5, 0.18],
  [-0.15, -2.8, 0.16],
  [-0.62, -2.5, 0.14],
];
const BALL: Point = [-0.45, -2.25];
const BALL_RADIUS = 0.33;

/** Points between two of a stroke. */
const BETWEEN = 8;

/** An oval leaning upward. */
const HEAD: readonly Point[] = Array.from({ length: 24 }, (_, i): Point => {
  const turn = (2 * Math.PI * i) / 24;
  const [along, across, lean] = [0.66 * Math.cos(turn), 0.42 * Math.sin(turn), 0.35];
  return [along * Math.cos(lean) - across * Math.sin(lean), along * Math.sin(lean) + across * Math.cos(lean)];
});

/** A thin stem. */
function stem(x: number, from: number, to: number): readonly Point[] {
  return [
    [x - THIN, from],
    [x + THIN, from],
    [x + THIN, to],
    [x - THIN, to],
  ];
}

/** A thick beam that rises to the right. */
function beam(y: number): readonly Point[] {
  const [half, rise] = [0.45, 0.13];
  return [
    [-half, y - rise - THICK],
    [half, y + rise - THICK],
    [half, y + rise + THICK],
    [-half, y - rise + THICK],
  ];
}

const THIN = 0.06;
const THICK = 0.15;
const SHARP: readonly (readonly Point[])[] = [stem(-0.2, -1.35, 1.25), stem(0.2, -1.25, 1.35), beam(-0.45), beam(0.45)];
const FLAT: readonly (readonly Point[])[] = [
  stem(-0.32, -0.75, 1.75),
  brushed([
    [-0.32, 0.25, 0.14],
    [0.08, 0.5, 0.3],
    [0.34, 0.22, 0.28],
    [0.12, -0.3, 0.18],
    [-0.32, -0.72, 0.08],
  ]),
];

/** The outline that a brush leaves: its middle goes smoothly through the points (E. Catmull, R. Rom, 1974, from memory). */
function brushed(stroke: Stroke): readonly Point[] {
  const smooth: [number, number, number][] = [];
  for (let i = 0; i < stroke.length - 1; i++) {
    const [p, q, r, s] = [-1, 0, 1, 2].map((k) => stroke[Math.max(0, Math.min(stroke.length - 1, i + k))] ?? [0, 0, 0]);
    for (let step = 0; step < BETWEEN; step++) {
      const t = step / BETWEEN;
      const along = (k: 0 | 1 | 2) => spline([p?.[k] ?? 0, q?.[k] ?? 0, r?.[k] ?? 0, s?.[k] ?? 0], t);
      smooth.push([along(0), along(1), along(2)]);
    }
  }
  const last = stroke.at(-1);
  if (last !== undefined) smooth.push([...last]);
  const side = (sign: number) =>
    smooth.map(([x, y, width], i): Point => {
      const a = smooth[Math.max(0, i - 1)] ?? [x, y];
      const b = smooth[Math.min(smooth.length - 1, i + 1)] ?? [x, y];
      const [dx, dy] = [b[0] - a[0], b[1] - a[1]];
      const length = Math.hypot(dx, dy) || 1;
      return [x - (sign * dy * width) / 2 / length, y + (sign * dx * width) / 2 / length];
    });
  return [...side(1), ...side(-1).reverse()];
}

function spline([p, q, r, s]: readonly [number, number, number, number], t: number): number {
  return 0.5 * (2 * q + (r - p) * t + (2 * p - 5 * q + 4 * r - s) * t ** 2 + (3 * q - p - 3 * r + s) * t ** 3);
}
