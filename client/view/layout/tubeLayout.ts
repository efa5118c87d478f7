/** Where everything of a tube is on the sheet: one axis of millimetres for section, view from above, dimensions and rows. */
import type { Section, TubeOutline } from "../../../server/src/protocol/boreView.js";

export interface TubeLayout {
  readonly width: number;
  /** Pixels of a millimetre along the axis, and across it in the section. */
  readonly scale: number;
  readonly across: number;
  /** How many times the radius is enlarged in the section. */
  readonly enlarged: number;
  readonly x: (millimetres: number) => number;
  readonly millimetres: (pixels: number) => number;
  /** Height of the section over and under the axis: what is tied on a tube stands higher than its wall. */
  readonly sectionAbove: number;
  readonly sectionHalf: number;
  /** Half the height of the view from above, px. */
  readonly aboveHalf: number;
  /** Columns of the rows: where the plot lies, and the right edges of the numbers. */
  readonly plot: { readonly from: number; readonly to: number };
  /** Middles of the circles: below their holes, or evenly where these would hide each other or the plot; and their radius. */
  readonly columns: readonly number[];
  readonly circle: number;
  readonly hzAt: number | undefined;
  readonly centsAt: number;
}

const PAD = 22;
const WIDEST = 1160;
/** Room for the cents of each row, and for its frequency where the sheet is wide, px. */
const CENTS_WIDTH = 62;
const HZ_WIDTH = 70;
const HZ_FROM = 640;
/** Room for the notes' names. */
const NAMES = 48;
const BESIDE_HOLES = 22;
/** Radius of a hole's circle in the rows. */
const CIRCLE = 6.5;
/** Half of what is left between two of them that stand evenly, px. */
const APART = 0.8;
/** The smallest of these that makes the bore so many pixels high. */
const ENLARGEMENTS = [1, 1.5, 2, 3, 4, 5];
const BORE_HEIGHT = { narrow: 44, wide: 60 };
const WIDE = 600;
/** A narrower plot says nothing; then it gets room left of the drawing. */
const LEAST_PLOT = 70;

/** @param inFile the tube as in the text: where its circles stand they stay while a hole is dragged */
export function tubeLayout(
  tube: TubeOutline,
  available: number,
  section?: Section,
  inFile: TubeOutline = tube,
): TubeLayout {
  const { from, to, holes, outside, bore } = tube;
  const width = Math.min(available, WIDEST);
  const right = width - PAD;
  const withHz = width >= HZ_FROM;
  const numbers = CENTS_WIDTH + (withHz ? HZ_WIDTH : 0);
  const last = Math.max(0, ...holes.map(({ at }) => at));
  const whole = (right - PAD) / (to - from);
  // The rows' numbers stand right of the last hole: the drawing gives way where they would not fit.
  const beside = last === 0 ? whole : (right - numbers - BESIDE_HOLES - PAD) / (last - from);
  const scale = Math.max(0.1, Math.min(whole, beside));
  const x = (millimetres: number) => PAD + (millimetres - from) * scale;
  const radius = Math.max(...bore.map(({ diameter }) => diameter / 2));
  const outer = Math.max(radius, ...outside.map(([, r]) => r));
  const highest = Math.max(outer, ...(section?.others.flat().map(([, y]) => y) ?? []));
  const wanted = width >= WIDE ? BORE_HEIGHT.wide : BORE_HEIGHT.narrow;
  const enlarged = ENLARGEMENTS.find((n) => 2 * radius * scale * n >= wanted) ?? (ENLARGEMENTS.at(-1) as number);
  const firstHole = Math.min(to, ...holes.map(({ at }) => at));
  const leastPlotEnd = PAD + NAMES + LEAST_PLOT;
  const atRest = inFile.holes.map(({ at }) => x(at));
  const isBelow = Math.min(x(to), ...atRest) - BESIDE_HOLES >= leastPlotEnd && leastGap(atRest) >= 2 * CIRCLE;
  const columns = isBelow
    ? holes.map(({ at }) => x(at))
    : evenly(holes.length, leastPlotEnd + BESIDE_HOLES, right - numbers);
  const plotEnd = isBelow ? Math.max(leastPlotEnd, x(firstHole) - BESIDE_HOLES) : leastPlotEnd;
  return {
    width,
    scale,
    across: scale * enlarged,
    enlarged,
    x,
    millimetres: (pixels) => (pixels - PAD) / scale + from,
    sectionAbove: highest * scale * enlarged,
    sectionHalf: outer * scale * enlarged,
    aboveHalf: outer * scale,
    plot: { from: PAD + NAMES, to: Math.min(plotEnd, right - numbers) },
    columns,
    circle: isBelow ? CIRCLE : Math.min(CIRCLE, leastGap(columns) / 2 - APART),
    hzAt: withHz ? right - CENTS_WIDTH : undefined,
    centsAt: right,
  };
}

function leastGap(at: readonly number[]): number {
  const sorted = [...at].sort((a, b) => a - b);
  return Math.min(Number.POSITIVE_INFINITY, ...sorted.slice(1).map((x, i) => x - (sorted[i] as number)));
}

function evenly(count: number, from: number, to: number): readonly number[] {
  return Array.from({ length: count }, (_, i) => from + ((i + 0.5) / count) * (to - from));
}

/** A round length, mm. @param least px of its bar */
export function scaleBar(scale: number, least = 70): number {
  return [5, 10, 20, 50, 100, 200].find((length) => length * scale >= least) ?? 500;
}

/**
 * Of labels along a line, which stand one row lower because they would touch the one before.
 * @param at middles, px
 * @param widths of each label, or of every one, the gap to the next included, px
 */
export function staggered(at: readonly number[], widths: number | readonly number[]): readonly boolean[] {
  const half = (i: number) => (typeof widths === "number" ? widths : (widths[i] ?? 0)) / 2;
  let free = Number.NEGATIVE_INFINITY;
  return at.map((middle, i) => {
    const lower = middle - half(i) < free;
    if (!lower) free = middle + half(i);
    return lower;
  });
}
