import { coverLength } from "./aperture.js";
import type { Column, Mouth } from "./column.js";
import { boreRadiusAt } from "./column.js";
import { holeLengths } from "./hole.js";
import { endPort, holePort, nearBodyEnds, type Port } from "./ports.js";
import { bluntLength, FLANGED_LENGTH, rectangleFactor } from "./radiation.js";
import { plugAway } from "./windowGap.js";
import { windowInner } from "./windowInner.js";

/** The upper end of the air column: where the bore begins, and the opening the jet blows across. */
export interface MouthEnd {
  /** The upstream end of the air, m: a rigid wall, or the pressure node itself where the port has no place outside. */
  readonly start: number;
  /** The jet works in series with this port's outer side. */
  readonly port: Port;
}

/** Makes the upper end. Throws a RangeError where a dimension leaves no mouth. */
export function mouthEnd(column: Column): MouthEnd {
  const { mouth, bore, wall } = column;
  const radius = boreRadiusAt(bore, 0);
  switch (mouth.kind) {
    case "ideal":
      return { start: 0, port: nodePort(0, radius) };
    case "correction":
      demand(Number.isFinite(mouth.length), "the mouth's correction must be a length");
      return { start: -mouth.length, port: nodePort(-mouth.length, boreRadiusAt(bore, Math.max(0, -mouth.length))) };
    case "window": {
      const { start, port } = windowEnd(column, mouth);
      return { start, port: withExtra(port, mouth.extra) };
    }
    case "embouchure": {
      demand(
        mouth.stopper >= 0 && Number.isFinite(mouth.stopper),
        "the stopper must stand upstream of the embouchure hole's centre",
      );
      demand(mouth.length > 0 && mouth.width > 0, "the embouchure hole needs a length and a width");
      demand(mouth.chimney > 0, "the embouchure hole's chimney must have a length");
      const hole = { x: 0, radius: mouth.width / 2, halfLength: mouth.length / 2, chimney: mouth.chimney, angle: 0 };
      const opening = holePort(hole, radius, wall, lip(mouth.cover));
      return { start: -mouth.stopper, port: withExtra(nearBodyEnds(opening, column), mouth.extra) };
    }
    case "rim": {
      const cover = lip(mouth.cover);
      const end = endPort(0, radius, wall, "mouthEnd");
      const added = cover > 0 ? coverLength(radius, bluntLength(radius, radius + wall) / radius, cover) : 0;
      return { start: 0, port: withExtra({ ...end, added }, mouth.extra) };
    }
  }
}

/**
 * What calibration adds outside the opening. Refused where it would leave less than nothing of the opening's own length.
 */
function withExtra(port: Port, extra = 0): Port {
  const { chimney, place, boreRadius, added } = port;
  const own = chimney
    ? chimney.inner + chimney.length + chimney.outer
    : bluntLength(boreRadius, place?.outerRadius ?? boreRadius);
  const whole = own + added + extra;
  demand(Number.isFinite(whole), "the mouth's sizes must be lengths");
  demand(whole > 0, "the mouth's extra length takes away more than the mouth has");
  return { ...port, added: added + extra };
}

function lip(cover: number): number {
  demand(cover >= 0 && cover < 1, "the lip must leave part of the mouth open: cover from 0 to below 1");
  return cover;
}

/** A pressure node: nothing outside it. */
function nodePort(x: number, radius: number): Port {
  return {
    x,
    area: Math.PI * radius * radius,
    boreRadius: radius,
    seriesOpen: 0,
    seriesClosed: 0,
    plainEnd: 0,
    added: 0,
  };
}

/**
 * A rectangular window cut from a rigid block on, lumped at the block (docs/coupled-model.md §6). The block is a mirror: inside, the window
 * is half of one twice as long: 0.8 to 1.7 cents sharper than finite elements of whole tubes (two cases). With the plug upstream the
 * image goes, and the opening acts from its middle, beside a closed piece of bore.
 */
function windowEnd(column: Column, mouth: Mouth & { kind: "window" }): MouthEnd {
  const { width, cutUp, chimney, stopper = 0 } = mouth;
  demand(width > 0 && cutUp > 0, "the window needs a width and a cut-up");
  demand(stopper >= 0 && Number.isFinite(stopper), "the stopper must stand at the window's upstream end or before it");
  const upstreamEnd = -cutUp / 2;
  const a = boreRadiusAt(column.bore, upstreamEnd);
  const area = width * cutUp;
  const outside = Math.sqrt(area / Math.PI);
  const inner = windowInner(a, width, cutUp, chimney);
  const outer = holeLengths(a, outside, chimney);
  const length = meanWall(a, column.wall, width) + chimney - column.wall;
  demand(length > 0, "the window's chimney must have a length");
  const { felt, relief } = stopper === 0 ? AT_WINDOW : plugAway(mouth, a, stopper);
  const x = upstreamEnd * felt;
  // The piece of bore that the node has moved over carries the flow no longer before it reaches the opening.
  const shorter = relief + upstreamEnd - x;
  const port: Port = {
    x,
    area,
    boreRadius: a,
    // Outside, the opening acts from its centre.
    place: { x: 0, angle: 0, outerRadius: a + chimney, on: "side" },
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

function demand(condition: boolean, message: string): void {
  if (!condition) throw new RangeError(message);
}
