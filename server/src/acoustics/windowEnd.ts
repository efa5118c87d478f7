/** A rectangular opening in the bore's side, at the end of the air: the window of a duct flute, the notch of an end-blown one. */
import type { Column } from "./column.js";
import { boreRadiusAt } from "./column.js";
import { demand } from "./demand.js";
import { holeLengths } from "./hole.js";
import type { Port } from "./ports.js";
import { FLANGED_LENGTH, rectangleFactor } from "./radiation.js";
import { plugAway } from "./windowGap.js";
import { windowInner } from "./windowInner.js";

/** m. */
interface CutWindow {
  /** Where on the axis the window begins. */
  readonly upstreamEnd: number;
  readonly width: number;
  readonly cutUp: number;
  readonly chimney: number;
  /** From its upstream end to the plug. */
  readonly stopper?: number;
}

interface WindowEnd {
  /** Upstream end of the air, m. */
  readonly start: number;
  readonly port: Port;
}

/**
 * A rectangular window cut from a rigid block on, lumped at the block (docs/coupled-model.md §6). The block is a mirror: inside, the window
 * is half of one twice as long: 0.8 to 1.7 cents sharper than finite elements of whole tubes (two cases). With the plug upstream the
 * image goes, and the opening acts from its middle, beside a closed piece of bore.
 */
export function windowEnd(window: CutWindow, { bore, wall }: Pick<Column, "bore" | "wall">): WindowEnd {
  const { upstreamEnd, width, cutUp, chimney, stopper = 0 } = window;
  demand(width > 0 && cutUp > 0, "the window needs a width and a cut-up");
  demand(stopper >= 0 && Number.isFinite(stopper), "the stopper must stand at the window's upstream end or before it");
  const a = boreRadiusAt(bore, upstreamEnd);
  const area = width * cutUp;
  const outside = Math.sqrt(area / Math.PI);
  const inner = windowInner(a, width, cutUp, chimney);
  const outer = holeLengths(a, outside, chimney);
  const length = meanWall(a, wall, width) + chimney - wall;
  demand(length > 0, "the window's chimney must have a length");
  const { felt, relief } = stopper === 0 ? AT_WINDOW : plugAway(window, a, stopper);
  const x = upstreamEnd * felt;
  // The piece of bore that the node has moved over no longer carries the flow before it reaches the opening.
  const shorter = relief + upstreamEnd - x;
  const port: Port = {
    x,
    area,
    boreRadius: a,
    // Outside, the opening acts from its centre.
    place: { x: upstreamEnd + cutUp / 2, angle: 0, outerRadius: a + chimney, on: "side", radius: outside },
    chimney: {
      length,
      radius1: outside,
      radius2: outside,
      lossRadius: area / (width + cutUp),
      innerArea: area,
      inner: inner.inner - (shorter * area) / (Math.PI * a * a),
      innerGrowth: inner.innerGrowth,
      outer: outer.outer - FLANGED_LENGTH * outside * (1 - rectangleFactor(width, cutUp)),
      outerGrowth: outer.outerGrowth,
    },
    // Toward the holes, the opening without its image: of equal area and proportions.
    inside: { along: cutUp / Math.sqrt(Math.PI), across: width / Math.sqrt(Math.PI) },
    isWindow: true,
    seriesOpen: inner.seriesOpen,
    seriesClosed: 0,
    plainEnd: 0,
    added: 0,
  };
  return { start: upstreamEnd - stopper, port };
}

/** A block that ends at the window: its mirror image is all there. */
const AT_WINDOW = { felt: 1, relief: 0 } as const;

/** Mean depth of a window with parallel sides through the wall of a tube: mean of √(R²−y²) − √(a²−y²) over its width, m. */
export function meanWall(a: number, wall: number, width: number): number {
  const half = Math.min(width / 2, a);
  const outerRadius = a + wall;
  return (segmentArea(outerRadius, half) - segmentArea(a, half)) / half;
}

/** ∫₀^h √(r²−y²) dy. */
function segmentArea(r: number, h: number): number {
  return (h * Math.sqrt(Math.max(0, r * r - h * h)) + r * r * Math.asin(Math.min(1, h / r))) / 2;
}
