/** A drawing as marks on a sheet of paper, in mm from its upper left corner: what every file format starts from. */

export type Point = readonly [x: number, y: number];

/** Widths and kinds of lines by ISO 128-2: wide for what is seen, narrow for the rest, long-dashed dotted for axes. */
export type LineKind = "outline" | "thin" | "axis" | "none";
export type Fill = "none" | "cut" | "other-cut" | "black" | "white";

export type Mark =
  | {
      readonly kind: "path";
      readonly points: readonly Point[];
      readonly closed: boolean;
      readonly line: LineKind;
      readonly fill: Fill;
    }
  | {
      readonly kind: "circle";
      readonly at: Point;
      readonly radius: number;
      readonly line: LineKind;
      readonly fill: Fill;
    }
  | {
      readonly kind: "text";
      readonly at: Point;
      readonly text: string;
      /** Height of its letters' line, mm. */
      readonly size: number;
      readonly anchor: "start" | "middle" | "end";
      /** Whether it reads upward. */
      readonly upward: boolean;
    };

export interface Sheet {
  readonly title: string;
  readonly width: number;
  readonly height: number;
  readonly marks: readonly Mark[];
}

/** ISO 216, landscape: width and height. */
export const PAPER = { A4: [297, 210], A3: [420, 297], A2: [594, 420] } as const;
export type PaperName = keyof typeof PAPER;

export interface DrawOptions {
  readonly paper: PaperName;
  /** mm in one unit of the file, and its name: dimensions are written in it. */
  readonly unit: number;
  readonly unitName: string;
}

/** Collects marks. */
export class Pen {
  readonly marks: Mark[] = [];

  line(points: readonly Point[], line: LineKind = "thin"): void {
    this.marks.push({ kind: "path", points, closed: false, line, fill: "none" });
  }

  area(points: readonly Point[], fill: Fill, line: LineKind = "outline"): void {
    this.marks.push({ kind: "path", points, closed: true, line, fill });
  }

  circle(at: Point, radius: number, fill: Fill = "none", line: LineKind = "thin"): void {
    this.marks.push({ kind: "circle", at, radius, line, fill });
  }

  text(
    at: Point,
    text: string,
    options: Partial<Pick<Extract<Mark, { kind: "text" }>, "size" | "anchor" | "upward">> = {},
  ): void {
    this.marks.push({ kind: "text", at, text, size: 3, anchor: "start", upward: false, ...options });
  }

  /** A dot with a cross, for drilling. */
  cross([x, y]: Point, reach: number): void {
    this.line([
      [x - reach, y],
      [x + reach, y],
    ]);
    this.line([
      [x, y - reach],
      [x, y + reach],
    ]);
  }
}

/** mm: ISO 128-2's series, 0.5 and half of it; dashes of axes. */
export const LINE_WIDTH: Readonly<Record<LineKind, number>> = { outline: 0.5, thin: 0.25, axis: 0.25, none: 0 };
export const AXIS_DASHES = [6, 1, 0.5, 1] as const;
/** Grey of cut faces: ISO 128-3 lets them be shaded instead of hatched. 1 is white. */
export const GREY: Readonly<Record<Exclude<Fill, "none">, number>> = { cut: 0.8, "other-cut": 0.9, black: 0, white: 1 };

/** Without trailing noughts: `12.5`. */
export function shortNumber(value: number, decimals = 2): string {
  const text = value.toFixed(decimals);
  const short = text.includes(".") ? text.replace(/\.?0+$/, "") : text;
  return short === "-0" ? "0" : short;
}

/** Of a length in mm, in a file's unit: hundredths of a millimetre, thousandths of an inch. */
export function lengthIn(unit: number): (mm: number) => string {
  return (mm) => shortNumber(mm / unit, unit === 1 ? 2 : 3);
}
