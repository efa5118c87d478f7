import { coverLength } from "./aperture.js";
import { bodyEndLength } from "./bodyEnd.js";
import type { Column, ToneHole } from "./column.js";
import { boreRadiusAt } from "./column.js";
import type { Place } from "./coupling.js";
import { meanRadius } from "./ellipse.js";
import { type ShapedLengths, shapedLengths } from "./holeShape.js";
import { sameValue } from "./sameValue.js";

/** A duct through the wall, from the bore to the outer surface. */
interface Chimney {
  /** Length of the line, m. */
  readonly length: number;
  /** Radius of the circle of equal area at the bore and outside, m: between them the line is a cone. */
  readonly radius1: number;
  readonly radius2: number;
  /** Radius whose wall losses the line has, m. */
  readonly lossRadius: number;
  /** Area to which the inner inertance refers, m². */
  readonly innerArea: number;
  /** Inertance length on the bore's side, m: at low frequency, and what (ka)² adds. */
  readonly inner: number;
  readonly innerGrowth: number;
  /** Inertance length outside, m: at low frequency, and what k² adds, m³. */
  readonly outer: number;
  readonly outerGrowth: number;
}

/** A place where the bore meets the outside, or would if no finger lay there. Lengths in m. */
export interface Port {
  readonly x: number;
  /** Area to which all its impedances refer, m². */
  readonly area: number;
  /** Radius of the bore there. */
  readonly boreRadius: number;
  /** Absent: a pressure node that radiates nothing and couples to nothing. */
  readonly place?: Place;
  /** Absent: the bore's own end. */
  readonly chimney?: Chimney;
  /** Half sizes at the bore, m, for the coupling inside it; absent for ends. */
  readonly inside?: { readonly along: number; readonly across: number };
  /** A window's inner length holds its own mirror image. */
  readonly isWindow?: boolean;
  /** Series lengths on the bore's section, uncovered and closed. */
  readonly seriesOpen: number;
  readonly seriesClosed: number;
  /** End correction of the uncovered opening over its radius, where a cover begins. */
  readonly plainEnd: number;
  /** Length that a permanent cover (the lip) adds outside, on `area`, less what a near end of the body takes. */
  readonly added: number;
}

/** A tone hole, or an embouchure hole. @param wall of the body, m @param lip share covered for good */
export function holePort(hole: ToneHole, boreRadius: number, wall: number, lip = 0): Port {
  const { x, chimney, angle, raised = 0 } = hole;
  const lengths = shapedLengths(boreRadius, hole, wall);
  const { outside, inside } = lengths;
  const radius = Math.sqrt(outside.along * outside.across);
  const innerRadius = Math.sqrt(inside.along * inside.across);
  const { plainEnd } = lengths;
  return {
    x,
    area: Math.PI * radius * radius,
    boreRadius,
    place: { x, angle, outerRadius: boreRadius + chimney - raised, on: "side", radius },
    // Written out: objects that are spread and added to may each have a hidden class of their own, and what reads them is then compiled again and again.
    chimney: {
      length: lengths.line,
      radius1: innerRadius,
      radius2: radius,
      lossRadius: lossRadiusOf(lengths),
      innerArea: Math.PI * innerRadius * innerRadius,
      inner: lengths.inner,
      innerGrowth: lengths.innerGrowth,
      outer: lengths.outer,
      outerGrowth: lengths.outerGrowth,
    },
    inside,
    seriesOpen: lengths.seriesOpen,
    seriesClosed: lengths.seriesClosed,
    plainEnd,
    added: lip > 0 ? coverLength(radius, plainEnd, lip) : 0,
  };
}

/** The same opening, where the body ends beside it. */
export function nearBodyEnds(port: Port, column: Column): Port {
  if (column.bodyEnds === undefined || port.place === undefined) return port;
  const { x, outerRadius } = port.place;
  return { ...port, added: port.added + bodyEndLength(column, x, Math.sqrt(port.area / Math.PI), outerRadius) };
}

/** Hydraulic radius of an oval chimney halfway up, m: of a round one the radius. */
function lossRadiusOf({ inside, outside }: ShapedLengths): number {
  const along = (inside.along + outside.along) / 2;
  const across = (inside.across + outside.across) / 2;
  return along === across ? along : (along * across) / meanRadius(along, across);
}

/** The bore's open end downstream. */
export function footPort(column: Column): Port {
  const foot = column.bore[column.bore.length - 1];
  if (foot === undefined) throw new RangeError("a bore needs at least two stations");
  return endPort(foot.x, foot.radius, column.wall, "footEnd");
}

/** An open end of the bore. @param x place along the axis, m @param radius of the bore there, m @param wall m */
export function endPort(x: number, radius: number, wall: number, on: "mouthEnd" | "footEnd"): Port {
  return {
    x,
    area: Math.PI * radius * radius,
    boreRadius: radius,
    place: { x, angle: 0, outerRadius: radius + wall, on },
    seriesOpen: 0,
    seriesClosed: 0,
    plainEnd: 0,
    added: 0,
  };
}

/**
 * All tone holes from the mouth to the foot, and where each stands in the column's own list. Of holes at one place the front one
 * comes first, then the smaller: which of two goes first changes pitches by some 0.1 cent, and must not depend on the
 * list's order. @param known ports of another column, taken over for holes that are the same
 */
export function holePorts(
  column: Column,
  known?: { readonly column: Column; readonly order: readonly number[]; readonly ports: readonly Port[] },
): { ports: Port[]; order: number[] } {
  const order = column.holes.map((_, i) => i).sort((i, j) => byPlace(holeAt(column, i), holeAt(column, j)));
  const ports = order.map((i, place) => {
    const hole = holeAt(column, i);
    const boreRadius = boreRadiusAt(column.bore, hole.x);
    const port = known?.order[place] === i ? known.ports[place] : undefined;
    const same =
      port?.boreRadius === boreRadius &&
      known?.column.wall === column.wall &&
      sameValue(known.column.bodyEnds, column.bodyEnds) &&
      sameValue(known.column.holes[i], hole);
    return same && port ? port : nearBodyEnds(holePort(hole, boreRadius, column.wall), column);
  });
  return { ports, order };
}

const holeAt = (column: Column, i: number): ToneHole => column.holes[i] as ToneHole;

const byPlace = (p: ToneHole, q: ToneHole): number =>
  p.x - q.x || p.angle - q.angle || p.radius - q.radius || p.chimney - q.chimney;
