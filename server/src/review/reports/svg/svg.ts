/** Both outlines laid over each other and the notes before and after, as a drawing (SVG 2): the old one dashed, so that no colour is needed. */
import { outlineOf } from "../../../design/outline/index.js";
import { xmlText } from "../../../escape/xml.js";
import type { Comparison } from "../../compare.js";
import { type Compared, filesOf, titleOf, verdictOf } from "../../compared.js";
import { noteName } from "../../notes.js";
import { step } from "../../verdict.js";
import { around, shapeOf } from "./shapes.js";

/** Units of the drawing, which a screen shows as pixels. */
const WIDTH = 1000;
const MARGIN = 20;
const LINE = 20;
/** The chart: one row per note, between these ends, at least this many cents on each side. */
const CHART = { from: 80, to: 800, row: 18, leastCents: 20 } as const;

export function svgReport(compared: readonly Compared[]): string {
  let y = MARGIN;
  const parts: string[] = [];
  for (const each of compared) {
    const { height, marks } = design(each);
    parts.push(`<g transform="translate(0 ${y.toFixed(1)})">`, ...marks, "</g>");
    y += height + MARGIN;
  }
  return [
    `<svg xmlns="http://www.w3.org/2000/svg" viewBox="0 0 ${WIDTH} ${Math.ceil(y)}" width="${WIDTH}" height="${Math.ceil(y)}" font-family="sans-serif" font-size="13">`,
    `<title>${xmlText(compared.map(titleOf).join(", "))}</title>`,
    `<rect width="100%" height="100%" fill="#fff"/>`,
    ...parts,
    "</svg>",
  ].join("\n");
}

interface Drawn {
  readonly height: number;
  readonly marks: readonly string[];
}

function design(compared: Compared): Drawn {
  const heading = [
    text(MARGIN, LINE, titleOf(compared), 'font-size="16" font-weight="bold"'),
    text(MARGIN, 2 * LINE, filesOf(compared)),
    text(MARGIN, 3 * LINE, verdictOf(compared)),
  ];
  if (compared.kind !== "both") return { height: 3 * LINE, marks: heading };
  const section = outlines(compared.comparison, 4 * LINE);
  const rows = chart(compared.comparison, section.height);
  return { height: rows.height, marks: [...heading, ...section.marks, ...rows.marks] };
}

/** `height` is where it ends. */
function outlines({ old, next }: Comparison, top: number): Drawn {
  const shapes = [
    { version: old, style: 'stroke="#777" stroke-dasharray="5 3"' },
    { version: next, style: 'stroke="#000"' },
  ].flatMap(({ version, style }) => {
    const outline = outlineOf(version.document.resolution);
    return outline === undefined ? [] : [{ shape: shapeOf(outline), style }];
  });
  if (shapes.length === 0) return { height: top, marks: [] };
  const box = around(shapes.map(({ shape }) => shape.box));
  // A vessel may be as high as long: its drawing is at most half as tall as wide.
  const scale = Math.min((WIDTH - 2 * MARGIN) / (box.right - box.left), WIDTH / 2 / (box.bottom - box.top));
  const place = `translate(${MARGIN} ${top}) scale(${scale.toFixed(5)}) translate(${(-box.left).toFixed(3)} ${(-box.top).toFixed(3)})`;
  const height = top + (box.bottom - box.top) * scale + LINE;
  const paths = shapes.flatMap(({ shape, style }) =>
    shape.paths.map((path) => `<path d="${path}" ${style} fill="none" vector-effect="non-scaling-stroke"/>`),
  );
  return {
    height,
    marks: [`<g transform="${place}">`, ...paths, "</g>", text(MARGIN, height, "dashed: before · solid: after")],
  };
}

function chart({ notes, next }: Comparison, top: number): Drawn {
  const { tolerance } = next.analysis;
  const cents = notes.flatMap(({ old, next: now }) => [Math.abs(old?.cents ?? 0), Math.abs(now?.cents ?? 0)]);
  const most = Math.max(CHART.leastCents, tolerance, ...cents);
  const middle = (CHART.from + CHART.to) / 2;
  const x = (value: number) => middle + (value / most) * ((CHART.to - CHART.from) / 2);
  const height = top + LINE + notes.length * CHART.row;
  const band = `<rect x="${x(-tolerance).toFixed(1)}" y="${top + LINE / 2}" width="${(x(tolerance) - x(-tolerance)).toFixed(1)}" height="${height - top - LINE / 2}" fill="#eee"/>`;
  const zero = `<path d="M${middle} ${top + LINE / 2}V${height}" stroke="#999"/>`;
  const rows = notes.flatMap((note, i) => {
    const y = top + LINE + i * CHART.row + CHART.row / 2;
    const dot = (value: number | undefined, style: string) =>
      value === undefined ? [] : [`<circle cx="${x(value).toFixed(1)}" cy="${y}" r="4" ${style}/>`];
    return [
      text(MARGIN, y + 4, noteName(note)),
      ...dot(note.old?.cents, 'fill="none" stroke="#777"'),
      ...dot(note.next?.cents, 'fill="#000"'),
      text(CHART.to + MARGIN, y + 4, `${step(note, tolerance)} cents`),
    ];
  });
  return { height, marks: [band, zero, ...rows] };
}

function text(x: number, y: number, words: string, style = ""): string {
  return `<text x="${x}" y="${y.toFixed(1)}" ${style}>${xmlText(words)}</text>`;
}
