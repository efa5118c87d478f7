/**
 * One instrument's geometry as plain data, for everything that shows or makes it: views, drawings, comparisons, solids. Lengths in
 * millimetres, angles in degrees.
 *
 * A tube's axis is z: 0 at the middle of the mouth's opening, growing toward the foot. Its front, where the fingers lie, is +y, and
 * holes turn about the axis clockwise as seen from the mouth. A vessel's z points from the cavity's centre to the mouth; its holes
 * lie in the plane of x and z, and a duct's breath runs toward −y.
 */

import type { Family } from "../../instrument/families/index.js";
import type { Path } from "../../instrument/finding.js";

/** Along the axis and away from it. */
export type ProfilePoint = readonly [z: number, radius: number];
export type Profile = readonly ProfilePoint[];

export interface Outline {
  readonly family: Family | undefined;
  readonly name: string | undefined;
  readonly body: TubeOutline | PipesOutline | VesselOutline;
  /** What was assumed where the design is silent, in the maker's words; nothing that sounds is among it. */
  readonly assumed: readonly string[];
}

/** Where in the design a dimension is written, so that a view can lead to it and a finding point at it. */
interface Placed {
  readonly path: Path;
}

export interface TubeOutline {
  readonly kind: "tube";
  readonly bore: readonly BorePoint[];
  readonly wall: number;
  /** Where the wood begins and ends. */
  readonly from: number;
  readonly to: number;
  readonly foot: "open" | "stopped";
  /** The assembled tube's surface, rings included; raised chimneys and what else stands out are not part of it. */
  readonly outside: Profile;
  /** Undefined where the design gives a length or the word `ideal` in place of a mouth that could be drawn. */
  readonly mouth: MouthOutline | undefined;
  readonly holes: readonly HoleOutline[];
  readonly joints: readonly JointOutline[];
  readonly parts: readonly PartOutline[];
  /** A flat at the back, this wide, that touches the surface from inside. */
  readonly base: number | undefined;
  readonly thumbRest: ThumbRestOutline | undefined;
}

export interface BorePoint extends Placed {
  readonly at: number;
  readonly diameter: number;
}

export interface OpeningOutline {
  /** Across the axis. */
  readonly width: number;
  /** Along the axis. */
  readonly length: number;
  /** From the bore to the outside. */
  readonly chimney: number;
}

export interface HoleOutline extends OpeningOutline, Placed {
  readonly name: string;
  readonly at: number;
  /** 0 is the front. */
  readonly angle: number;
  /** How much wider it is at the bore, on width and length. */
  readonly undercut: number;
  /** What its chimney stands up above the body. */
  readonly raised: number;
  /** Of the bore at its place. */
  readonly boreRadius: number;
}

export type MouthOutline = DuctOutline | TwoChamberOutline | EmbouchureOutline | RimOutline;

/** A window from `from`, the windway's exit, to `to`, the labium's edge. */
export interface WindowOutline extends OpeningOutline {
  readonly from: number;
  readonly to: number;
  /** How far upstream of it the bore is closed. */
  readonly stopper: number;
}

export interface WindwayOutline {
  /** Where the breath enters, and where it leaves for the window. */
  readonly from: number;
  readonly to: number;
  readonly width: number;
  readonly entryWidth: number;
  readonly exitHeight: number;
  readonly entryHeight: number;
  /** Distance of its floor from the axis; of a vessel, from the cavity's centre. */
  readonly floor: number;
  /** 45°, at the exit, of floor and roof. */
  readonly chamfer: number;
}

/** The edge: from `low` to `high`, distances from the axis (of a vessel, from the cavity's centre). */
export interface LabiumOutline {
  readonly at: number;
  readonly low: number;
  readonly high: number;
  /** Degrees to the axis, above and below. */
  readonly ramp: number;
  readonly relief: number;
}

/** A body within the bore: block, plug or stopper. */
export interface StopperOutline {
  readonly from: number;
  readonly to: number;
  readonly radius: number;
}

/** Floor and roof are turned about the axis like the bore, so that the labium's edge is equally thick over its whole width. */
export interface DuctOutline {
  readonly kind: "duct";
  readonly window: WindowOutline;
  readonly windway: WindwayOutline;
  readonly labium: LabiumOutline;
  readonly block: StopperOutline;
  readonly beak: { readonly angle: number; readonly lip: number };
}

/** Flat: a channel in a nest, covered by a block that is tied on. */
export interface TwoChamberOutline {
  readonly kind: "two-chamber";
  readonly window: WindowOutline;
  readonly windway: WindwayOutline;
  readonly labium: LabiumOutline;
  /** The slow air chamber. */
  readonly chamber: { readonly from: number; readonly to: number; readonly diameter: number };
  readonly mouthHole: number;
  /** Length of the hole from the chamber up into the channel, at the chamber's lower end. */
  readonly exitLength: number;
  /** Between slow chamber and sounding bore. */
  readonly plug: StopperOutline;
  readonly nest: { readonly from: number; readonly to: number; readonly height: number; readonly width: number };
  readonly block: { readonly length: number; readonly width: number; readonly height: number };
}

export interface EmbouchureOutline extends OpeningOutline {
  readonly kind: "embouchure";
  /** How much wider it is at the bore, on width and length. */
  readonly undercut: number;
  readonly boreRadius: number;
  /** Undefined where the end is closed by the body's own wall, as a vessel's is. */
  readonly stopper: StopperOutline | undefined;
  /** Where the air ends, upstream. */
  readonly closedAt: number;
}

export interface RimOutline {
  readonly kind: "rim";
  readonly notch:
    | { readonly width: number; readonly depth: number; readonly ramp: number; readonly edge: number }
    | undefined;
}

export interface JointOutline extends Placed {
  /** The shoulder: the tenon reaches upstream from here. */
  readonly at: number;
  readonly length: number;
  /** Of the tenon, and of the socket round it. */
  readonly radius: number;
  readonly socketRadius: number;
  /** Of the outside at the joint, on either side of it. */
  readonly outerRadius: number;
  /** Where the ring begins above the joint and ends below it; the joint itself where there is none. */
  readonly ring: readonly [from: number, to: number];
  readonly finish: "thread" | "cork" | "plain";
  /** The groove for thread or cork on the tenon; undefined for a plain one. */
  readonly groove: { readonly from: number; readonly to: number; readonly depth: number } | undefined;
}

/** A stretch of the tube that is printed by itself. */
export interface PartOutline {
  readonly name: string;
  readonly from: number;
  readonly to: number;
  /** At `from` and `to`. */
  readonly tenon: JointOutline | undefined;
  readonly socket: JointOutline | undefined;
}

export interface ThumbRestOutline {
  readonly at: number;
  readonly length: number;
  readonly width: number;
  readonly height: number;
}

/** A row of tubes side by side that share their walls; rims at z 0. */
export interface PipesOutline {
  readonly kind: "pipes";
  readonly wall: number;
  readonly pipes: readonly PipeOutline[];
}

export interface PipeOutline extends Placed {
  readonly note: string | undefined;
  /** Of its axis, across the row. */
  readonly x: number;
  readonly diameter: number;
  /** From the rim to the stopper. */
  readonly length: number;
  /** Where the tube ends. */
  readonly to: number;
  readonly stopper: StopperOutline;
}

/** A closed chamber; one in the shape of a tube has a `TubeOutline`. */
export interface VesselOutline {
  readonly kind: "vessel";
  /** Half axes of the cavity along x (in the plane of the holes), y and z (to the mouth). */
  readonly semiAxes: readonly [x: number, y: number, z: number];
  readonly wall: number;
  readonly mouth: VesselMouthOutline;
  readonly holes: readonly VesselHoleOutline[];
  /** Height at which it is parted, below the middle, and how far the upper part's lip reaches below; undefined for one part. */
  readonly split: { readonly at: number; readonly lip: number } | undefined;
}

export type VesselMouthOutline =
  | (OpeningOutline & { readonly kind: "embouchure" })
  | {
      readonly kind: "duct";
      readonly window: WindowOutline;
      readonly windway: WindwayOutline;
      readonly labium: LabiumOutline;
      /** Wood beside the windway. */
      readonly cheek: number;
    };

export interface VesselHoleOutline extends OpeningOutline, Placed {
  readonly name: string;
  /** Degrees round the body from the mouth, and over the plane of x and z. */
  readonly angle: number;
  readonly elevation: number;
  /** Where its axis meets the cavity, and the way it points: the surface's normal. Both as seen on the plane of x and z. */
  readonly point: readonly [x: number, z: number];
  readonly normal: readonly [x: number, z: number];
  /** How far that place lies beside the plane along y, and the normal's share that way. */
  readonly aside: number;
  readonly normalAside: number;
}
