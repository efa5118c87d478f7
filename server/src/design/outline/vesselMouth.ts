/** Where a vessel's windway, spout and labium lie in the plane of the breath: y toward the player, z from the cavity's centre to the mouth; mm as drawn. */
import { SOLID_DEFAULTS as USUAL } from "../../instrument/defaults.js";
import { labiumLine } from "./headProfile.js";
import type { VesselMouthOutline, VesselOutline } from "./outline.js";
import { reliefOf, STEEPEST_RELIEF } from "./relief.js";

type Duct = Extract<VesselMouthOutline, { kind: "duct" }>;
export type Point = readonly [y: number, z: number];

export interface VesselMouthSides {
  /** y of the windway's entry, and of its exit at the window. */
  readonly entry: number;
  readonly exit: number;
  /** z of the spout's upper and lower side. */
  readonly roof: number;
  readonly under: number;
  /** z of the window's rim, above which nothing stands beside the spout. */
  readonly rim: number;
  /** The pad under the ramp: where the rim ends, and the foot of the slope from there. */
  readonly padEnd: Point;
  readonly padFoot: Point;
  /** From the end of the relief over the labium's edge to the end of the ramp at a height, the rim's if none is given. */
  labium(outside?: number): readonly Point[];
}

export function vesselMouthSides(mouth: Duct, vessel: Pick<VesselOutline, "semiAxes" | "wall">): VesselMouthSides {
  const { window, windway, labium } = mouth;
  const pole = vessel.semiAxes[2];
  const half = window.length / 2;
  const rim = pole + window.chimney;
  const relief = reliefOf(mouth, vessel) ?? { angle: STEEPEST_RELIEF, depth: 0 };
  // The line runs along z of a tube, away from the player; here y runs toward the player.
  const line = (outside: number) =>
    labiumLine({ ...labium, at: half, relief: relief.angle }, pole - relief.depth, outside).map(
      ([z, height]): Point => [-z, height],
    );
  const padEnd = line(rim).at(-1) ?? [-half, rim];
  return {
    entry: half + windway.to - windway.from,
    exit: half,
    roof: spoutTop(mouth),
    under: windway.floor - USUAL.vesselRoof,
    rim,
    padEnd,
    padFoot: [padEnd[0] - USUAL.padSlope, pole - vessel.wall - USUAL.padFoot],
    labium: (outside = rim) => line(outside),
  };
}

/** z of the spout's upper side. */
export function spoutTop({ windway: { floor, exitHeight, entryHeight } }: Duct): number {
  return floor + Math.max(exitHeight, entryHeight) + USUAL.vesselRoof;
}
