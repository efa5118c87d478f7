/** Where everything of a tube stands on the sheet: one axis of millimetres for section, view from above, dimensions and rows. */
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
/** The smallest of these that makes the bore so many pixels high. */
const ENLARGEMENTS = [1, 1.5, 2, 3, 4, 5];
const BORE_HEIGHT = { narrow: 44, wide: 60 };
const WIDE = 600;
/** Narrower, the plot says nothing; then it is given room left of the drawing's own. */
const LEAST_PLOT = 70;

export function tubeLayout(tube: TubeOutline, available: number, section?: Section): TubeLayout {
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
  const plotEnd = Math.max(PAD + NAMES + LEAST_PLOT, x(firstHole) - BESIDE_HOLES);
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
    hzAt: withHz ? right - CENTS_WIDTH : undefined,
    centsAt: right,
  };
}

/** A round length whose bar is about a tenth of the sheet, mm. */
export function scaleBar(scale: number): number {
  return [5, 10, 20, 50, 100, 200].find((length) => length * scale >= 70) ?? 500;
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
