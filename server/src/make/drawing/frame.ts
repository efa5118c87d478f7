/** Frame, title block and notes of a sheet. Margins by ISO 5457; the block's layout is our own. */
import { PAPER, type PaperName, Pen, type Point, type Sheet } from "./sheet.js";

/** mm: the left margin is for filing. */
export const MARGIN = { left: 20, other: 10 } as const;
const BLOCK = { width: 110, height: 24 } as const;

export interface TitleBlock {
  readonly name: string;
  /** `1:2`; undefined where nothing is to scale. */
  readonly scale: string | undefined;
  /** What is on it: `Section`, `Drilling template`. */
  readonly what: string;
  readonly unit: string;
  readonly sheet: string;
}

export interface Framed {
  readonly pen: Pen;
  readonly width: number;
  readonly height: number;
  /** Of the space inside the frame, above the title block. */
  readonly from: Point;
  readonly to: Point;
  finished(): Sheet;
}

export function framed(paper: PaperName, block: TitleBlock): Framed {
  const [width, height] = PAPER[paper];
  const pen = new Pen();
  const [left, top, right, bottom] = [MARGIN.left, MARGIN.other, width - MARGIN.other, height - MARGIN.other];
  pen.area(rectangle(left, top, right, bottom), "none");
  drawBlock(pen, right - BLOCK.width, bottom - BLOCK.height, block);
  return {
    pen,
    width,
    height,
    from: [left, top],
    to: [right, bottom - BLOCK.height],
    finished: () => ({ title: `${block.name}: ${block.what}`, width, height, marks: pen.marks }),
  };
}

function drawBlock(pen: Pen, x: number, y: number, block: TitleBlock): void {
  pen.area(rectangle(x, y, x + BLOCK.width, y + BLOCK.height), "white");
  pen.line([
    [x, y + 12],
    [x + BLOCK.width, y + 12],
  ]);
  pen.text([x + 3, y + 8], fitted(block.name, 40), { size: 5 });
  const cells = [
    block.what,
    block.scale === undefined ? "not to scale" : `scale ${block.scale}`,
    `lengths in ${block.unit}`,
    block.sheet,
  ];
  const step = BLOCK.width / cells.length;
  for (const [i, cell] of cells.entries()) {
    if (i > 0)
      pen.line([
        [x + i * step, y + 12],
        [x + i * step, y + BLOCK.height],
      ]);
    pen.text([x + (i + 0.5) * step, y + 19.5], cell, { size: 2.8, anchor: "middle" });
  }
}

export function rectangle(x0: number, y0: number, x1: number, y1: number): readonly Point[] {
  return [
    [x0, y0],
    [x1, y0],
    [x1, y1],
    [x0, y1],
  ];
}

/** At most so many signs. */
export function fitted(text: string, most: number): string {
  const signs = [...text];
  return signs.length <= most ? text : `${signs.slice(0, most - 1).join("")}…`;
}

/** Lines of at most so many signs, broken between words. */
export function wrapped(text: string, most: number): readonly string[] {
  const lines: string[] = [];
  for (const word of text.split(" ")) {
    const last = lines.at(-1);
    if (last !== undefined && last.length + 1 + word.length <= most) lines[lines.length - 1] = `${last} ${word}`;
    else lines.push(word);
  }
  return lines;
}

/** Scales of ISO 5455, the largest first. */
const SCALES = [
  [2, "2:1"],
  [1, "1:1"],
  [0.5, "1:2"],
  [0.2, "1:5"],
  [0.1, "1:10"],
  [0.05, "1:20"],
  [0.02, "1:50"],
  [0.01, "1:100"],
] as const;

/** The largest at which this fits, none above `most`; the smallest where none does. */
export function scaleFor(size: readonly [number, number], room: readonly [number, number], most: number) {
  const found = SCALES.find(([factor]) => factor <= most && size[0] * factor <= room[0] && size[1] * factor <= room[1]);
  const [factor, name] = found ?? SCALES[SCALES.length - 1] ?? [1, "1:1"];
  return { factor, name };
}
