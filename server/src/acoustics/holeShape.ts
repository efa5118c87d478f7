/** Holes that are oval, undercut or raised: the round hole's lengths carried over (docs/coupled-model.md §11). */
import type { ToneHole } from "./column.js";
import { ovalInner, ovalOuter, ovalSeries } from "./ellipse.js";
import { chimneyDecay, cylinderFlange, type HoleLengths, holeLengths, saddleLength } from "./hole.js";
import { bluntLength } from "./radiation.js";

/** Half sizes of an elliptic opening, m. */
export interface HalfSizes {
  readonly along: number;
  readonly across: number;
}

/** Lengths in m; the inner and the series lengths belong to the opening at the bore, the outer ones to that outside. */
export interface ShapedLengths extends HoleLengths {
  readonly inside: HalfSizes;
  readonly outside: HalfSizes;
  /** End correction of the uncovered opening over the radius of its area. */
  readonly plainEnd: number;
}

/** @param a bore radius, m @param wall of the body, m: how thick the rim of a raised chimney is taken */
export function shapedLengths(a: number, hole: ToneHole, wall: number): ShapedLengths {
  const { radius, chimney, halfLength = radius, undercut = 0, raised = 0 } = hole;
  const outside = { along: halfLength, across: radius };
  if (halfLength === radius && undercut === 0 && raised === 0) {
    const plainEnd = cylinderFlange(radius / (a + chimney));
    return { ...holeLengths(a, radius, chimney), inside: outside, outside, plainEnd };
  }
  const inside = { along: halfLength + undercut, across: radius + undercut };
  const inner = innerEnd(a, inside, chimney);
  const outer = raised > 0 ? raisedEnd(outside, a + chimney - raised, wall) : flushEnd(outside, a + chimney);
  return { ...inner, ...outer, line: chimney + inner.innerSaddle - outer.outerSaddle, inside, outside };
}

function innerEnd(a: number, { along, across }: HalfSizes, chimney: number) {
  const b = Math.sqrt(along * across);
  const round = holeLengths(a, b, chimney);
  const series = ovalSeries(along / across, chimneyDecay(b, chimney));
  return {
    innerSaddle: saddleLength(across, across / a),
    inner: round.inner + b * ovalInner(b / a, along / across),
    innerGrowth: round.innerGrowth,
    seriesOpen: round.seriesOpen * series,
    seriesClosed: round.seriesClosed * series,
  };
}

function flushEnd({ along, across }: HalfSizes, outerRadius: number) {
  const b = Math.sqrt(along * across);
  const q = b / outerRadius;
  const plainEnd = cylinderFlange(q) + ovalOuter(q, along / across);
  const outerSaddle = saddleLength(across, across / outerRadius);
  return { plainEnd, outerSaddle, outer: b * plainEnd + outerSaddle, outerGrowth: 0.19 * b * b * outerRadius };
}

function raisedEnd({ along, across }: HalfSizes, bodyRadius: number, rim: number) {
  const b = Math.sqrt(along * across);
  const plainEnd = bluntLength(b, b + rim) / b;
  return { plainEnd, outerSaddle: 0, outer: b * plainEnd, outerGrowth: 0.19 * b * b * bodyRadius };
}
