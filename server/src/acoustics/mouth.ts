import { coverLength } from "./aperture.js";
import type { Column } from "./column.js";
import { boreRadiusAt } from "./column.js";
import { demand } from "./demand.js";
import { endPort, holePort, nearBodyEnds, type Port } from "./ports.js";
import { bluntLength } from "./radiation.js";
import { windowEnd } from "./windowEnd.js";

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
      const { start, port } = windowEnd({ ...mouth, upstreamEnd: -mouth.cutUp / 2 }, column);
      return { start, port: withExtra(port, mouth.extra) };
    }
    case "notch": {
      // Lip and chin close the tube's end as a block does; the wall is bevelled down to the edge's thickness.
      const { start, port } = windowEnd({ ...mouth, upstreamEnd: 0 }, { bore, wall: mouth.chimney });
      return { start, port: withExtra(port, mouth.extra) };
    }
    case "embouchure": {
      demand(
        mouth.stopper >= 0 && Number.isFinite(mouth.stopper),
        "the stopper must stand upstream of the embouchure hole's centre",
      );
      demand(mouth.length > 0 && mouth.width > 0, "the embouchure hole needs a length and a width");
      demand(mouth.chimney > 0, "the embouchure hole's chimney must have a length");
      const { chimney, undercut = 0 } = mouth;
      demand(undercut >= 0 && Number.isFinite(undercut), "the embouchure hole's undercut must not be negative");
      const hole = { x: 0, radius: mouth.width / 2, halfLength: mouth.length / 2, chimney, undercut, angle: 0 };
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
