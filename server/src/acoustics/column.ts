/**
 * The air column as the physics sees it: pure numbers in SI units, nothing of files or music.
 * Positions `x` are metres along the axis, 0 at the centre of the mouth opening, growing toward the foot.
 */
import { alongBore } from "./alongBore.js";

/** A point of the bore's outline. Between stations the bore is a cone frustum; two stations at one `x` are a step. */
export interface Station {
  readonly x: number;
  /** Inner radius, m. */
  readonly radius: number;
}

/** A hole through the wall, its axis across the bore's axis. Round, straight and sharp-edged unless one of the last three says otherwise. */
export interface ToneHole {
  readonly x: number;
  /** Radius of the hole where it opens outside, m; of an oval hole half its width, across the bore. */
  readonly radius: number;
  /** From the bore's surface to the outer end of the hole, on the hole's axis, m. */
  readonly chimney: number;
  /** Direction around the bore's axis, rad; 0 is the front (finger side), π the back (thumb side). */
  readonly angle: number;
  /** Half the length along the bore, m, of an oval (elliptic) hole. */
  readonly halfLength?: number;
  /** By how much the hole is wider at the bore than outside, on the radius, m: straight sides between; negative if narrower there. */
  readonly undercut?: number;
  /** How far the chimney stands up from the body's outer surface, m, and ends there in a flat rim; part of `chimney`. */
  readonly raised?: number;
}

/**
 * How much of a hole's outer opening a finger leaves free, or a lip: 0 fully open, 1 closed flush at the outer surface.
 * Values between are half-closed holes.
 */
export type Cover = number;

/**
 * `extra`, m, is what measured notes add to the model: inertance as of so much more depth of the opening, on its own area;
 * negative where the mouth is shorter than modelled.
 */
export type Mouth =
  /** A pressure node at x = 0 that radiates nothing and couples to nothing: the textbook open end. */
  | { readonly kind: "ideal" }
  /** A measured mouth: the bore continues by `length` m upstream of x = 0 and ends there in a pressure node. */
  | { readonly kind: "correction"; readonly length: number }
  /**
   * Duct flute: a rectangular window, `width` across and `cutUp` along the axis, m; centre at x = 0; `chimney` deep, as if its four walls
   * stood upright. Rigid block at its upstream end or, with a closed piece of bore between, `stopper` m upstream of that end.
   */
  | {
      readonly kind: "window";
      readonly width: number;
      readonly cutUp: number;
      readonly chimney: number;
      readonly stopper?: number;
      readonly extra?: number;
    }
  /**
   * Transverse flute: an oval hole, `length` along and `width` across the axis, m, its centre at x = 0, at the bore wider by `undercut` on
   * every side; the lip covers the share `cover` of it; the stopper's face lies `stopper` m upstream of x = 0.
   */
  | {
      readonly kind: "embouchure";
      readonly length: number;
      readonly width: number;
      readonly chimney: number;
      readonly undercut?: number;
      readonly cover: Cover;
      readonly stopper: number;
      readonly extra?: number;
    }
  /**
   * End-blown over a notch: lip and chin close the bore's end at x = 0 and leave a slot `width` across, `cutUp` from the lip to the blowing
   * edge and `chimney` deep, m; taken as a window whose block is the lip.
   */
  | {
      readonly kind: "notch";
      readonly width: number;
      readonly cutUp: number;
      /** Of the notch alone, m, and where the player's lip lies: `cutUp` follows from them (`notchReach`). Asked only where the size changes. */
      readonly depth?: number;
      readonly gap?: number;
      readonly lipToEdge?: number;
      readonly chimney: number;
      readonly extra?: number;
    }
  /** End-blown over a plain rim: the bore's own open end at x = 0, of which the lip covers the share `cover`. */
  | { readonly kind: "rim"; readonly cover: Cover; readonly extra?: number };

export interface Column {
  /** At least two stations, `x` never decreasing; the last is the foot. Stations before 0 are upstream of the mouth. */
  readonly bore: readonly Station[];
  /** Distance from the bore's wall to the outer surface, across the axis, m. */
  readonly wall: number;
  readonly foot: "open" | "stopped";
  /** From the mouth to the foot. */
  readonly holes: readonly ToneHole[];
  readonly mouth: Mouth;
  /** Where the body itself ends in a flat closed face near openings, m. Absent: it goes on far enough, or ends at its open foot. */
  readonly bodyEnds?: readonly number[];
}

/** Radius of the bore at `x`, m; beyond the outline the nearest station's. At a step, the downstream side's. */
export function boreRadiusAt(bore: readonly Station[], x: number): number {
  const radius = alongBore(bore, x, placeOf, radiusOf);
  if (radius === undefined) throw new RangeError("a bore needs at least one station");
  return radius;
}

const placeOf = ({ x }: Station) => x;
const radiusOf = ({ radius }: Station) => radius;
