/** Holes that are oval, undercut or raised: the round hole's lengths carried over (docs/coupled-model.md §11). */
import type { ToneHole } from "./column.js";
import { ovalClosedSeries, ovalInner, ovalOuter, ovalSeries } from "./ellipse.js";
import { chimneyDecay, cylinderFlange, type HoleLengths, holeLengths, saddleLength } from "./hole.js";
import { bluntLength } from "./radiation.js";

/** Half sizes of an elliptic opening, m. */
export interface HalfSizes {
  readonly along: number;
  readonly across: number;
}

/** Lengths in m; the inner and the series lengths belong to the opening at the bore, the outer ones to that outside. */
export interface ShapedLengths extends HoleLengths {
  /** Half sizes where the line begins and ends, between the saddles. */
  readonly inside: HalfSizes;
  readonly outside: HalfSizes;
  /** End correction of the uncovered opening over the radius of its area. */
  readonly plainEnd: number;
}

/** From this height on, over the radius, a raised chimney's end is read from finite elements; below, it goes over into a flush one. */
const STANDS_ALONE = 0.5;

/**
 * By how much the slope's square makes a cone of air heavier than its sections: a quarter between spherical fronts, more as the fronts
 * of a short one are none. This and the constants of `nozzle` are fitted to finite elements of one undercut hole alone
 * (test/reference/fem/single.py, group `whole`: chimneys 0.5 to 2.4 radii deep, holes of 0.25 to 0.4 of the bore, slopes to 0.4), whose
 * 40 lengths they meet within 0.2 %.
 */
const CONE = 1 / 3;

/** @param a bore radius, m @param wall of the body, m: how thick the rim of a raised chimney is taken */
export function shapedLengths(a: number, hole: ToneHole, wall: number): ShapedLengths {
  const { radius, chimney, halfLength = radius, undercut = 0, raised = 0 } = hole;
  const mouth = { along: halfLength, across: radius };
  if (halfLength === radius && undercut === 0 && raised === 0) {
    const plainEnd = cylinderFlange(radius / (a + chimney));
    return { ...holeLengths(a, radius, chimney), inside: mouth, outside: mouth, plainEnd };
  }
  const bodyRadius = a + chimney - raised;
  const slope = undercut / chimney;
  const stands = Math.min(1, raised / (STANDS_ALONE * equalRadius(mouth)));
  // A sloping side goes on past the axis' ends into the saddles: the line begins wider, and ends wider.
  const inside = wider(mouth, undercut + slope * saddleOf(wider(mouth, undercut), a));
  const outside = wider(mouth, slope * saddleOf(mouth, bodyRadius) * (1 - stands));
  const inner = innerEnd(a, inside, chimney);
  const series = seriesEnd(a, wider(mouth, undercut), chimney, slope);
  const flush = flushEnd(outside, bodyRadius, slope);
  const outer = stands > 0 ? between(flush, raisedEnd(outside, raised, wall, bodyRadius), stands) : flush;
  const line = chimney + inner.innerSaddle - outer.outerSaddle;
  const onInside = line * (equalRadius(inside) / equalRadius(outside));
  return {
    ...inner,
    ...series,
    ...outer,
    inner: inner.inner + CONE * slope ** 2 * onInside - stands * innerExcess(a, inside),
    line,
    inside,
    outside,
  };
}

/** Outer end of a chimney that stands up by a share of what it takes to stand alone. */
function between(flush: ReturnType<typeof flushEnd>, alone: ReturnType<typeof raisedEnd>, share: number) {
  const mix = (key: keyof typeof flush) => flush[key] + share * (alone[key] - flush[key]);
  return {
    plainEnd: mix("plainEnd"),
    outerSaddle: mix("outerSaddle"),
    outer: mix("outer"),
    outerGrowth: mix("outerGrowth"),
  };
}

const wider = ({ along, across }: HalfSizes, by: number): HalfSizes => ({ along: along + by, across: across + by });

const saddleOf = ({ across }: HalfSizes, cylinder: number): number => saddleLength(across, across / cylinder);

const equalRadius = ({ along, across }: HalfSizes): number => Math.sqrt(along * across);

function innerEnd(a: number, sizes: HalfSizes, chimney: number) {
  const { along, across } = sizes;
  const b = equalRadius(sizes);
  const round = holeLengths(a, b, chimney);
  return {
    innerSaddle: saddleOf(sizes, a),
    inner: round.inner + b * ovalInner(b / a, along / across, chimney / b),
    innerGrowth: round.innerGrowth,
  };
}

/** Series lengths: a chimney that narrows outward takes less of the flow that passes. @param sizes at the bore, on the axis */
function seriesEnd(a: number, sizes: HalfSizes, chimney: number, slope: number) {
  const b = equalRadius(sizes);
  const elongation = sizes.along / sizes.across;
  const d = b / a;
  const narrowing = 1 - slope * (0.42 - 0.5 * d);
  const { seriesOpen } = holeLengths(a, b, chimney);
  return {
    seriesOpen: seriesOpen * ovalSeries(elongation, chimneyDecay(b, chimney)) * narrowing,
    seriesClosed: -b * d * d * ovalClosedSeries(d, chimney / b, elongation) * narrowing,
  };
}

/**
 * What the flow's narrowing toward the opening takes from the outer length, over the radius: in proportion to the slope, as it must begin.
 * Constants: see CONE. @param slope of the sides, from 0 up
 */
function nozzle(q: number, slope: number): number {
  return slope > 0 ? slope * (0.42 * q - 0.046) : 0;
}

function flushEnd(sizes: HalfSizes, outerRadius: number, slope: number) {
  const b = equalRadius(sizes);
  const q = b / outerRadius;
  const plainEnd = cylinderFlange(q) + ovalOuter(q, sizes.along / sizes.across) - nozzle(q, slope);
  const outerSaddle = saddleOf(sizes, outerRadius);
  return { plainEnd, outerSaddle, outer: b * plainEnd + outerSaddle, outerGrowth: 0.19 * b * b * outerRadius };
}

/**
 * How much of a flush round hole's outer length its published inner length holds, m: the two were only ever fitted together. Where
 * the outer end is another, it must come off.
 */
function innerExcess(a: number, sizes: HalfSizes): number {
  return (0.045 * equalRadius(sizes) ** 2) / a;
}

/**
 * A blunt end that stands out from the body by `raised`: what the body below adds is read from finite elements of one chimney alone
 * (test/reference/fem/single.py: b/R 0.25 and 0.45, height 0.5 to 2 b, rim 0.3 and 0.6 b), within 0.003 b.
 */
function raisedEnd(sizes: HalfSizes, raised: number, rim: number, bodyRadius: number) {
  const b = equalRadius(sizes);
  const near = (0.09 - (0.105 * b) / bodyRadius) * Math.exp(-(0.85 * raised + 1.3 * rim) / b);
  const plainEnd = bluntLength(b, b + rim) / b + near;
  return { plainEnd, outerSaddle: 0, outer: b * plainEnd, outerGrowth: 0.19 * b * b * bodyRadius };
}
