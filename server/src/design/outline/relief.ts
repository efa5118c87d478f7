/** The underside of a labium over a curved cavity. */
import { tangent } from "./angle.js";
import type { VesselMouthOutline, VesselOutline } from "./outline.js";

type Duct = Extract<VesselMouthOutline, { kind: "duct" }>;

/** Degrees of the labium's underside to the windway: as flat as gets clear of the curved shell. Common practice, no source. */
const FLATTEST_RELIEF = 35;
export const STEEPEST_RELIEF = 60;
/** mm by which the relief ends inside the cavity, and the steps in which that place is looked for. */
const CLEAR = 0.3;
const STEP = 0.05;
/** mm: a labium is never undercut this deep. */
const DEEPEST = 100;

/**
 * The labium's underside: its slope, and how far below the pole it ends: as soon as it is clear of the shell over the whole width of
 * the window. Less leaves a ledge behind the edge, more cuts the shell again farther down. Undefined where it never gets clear.
 */
export function reliefOf(
  { window, labium }: Duct,
  { semiAxes: [a, b, c] }: Pick<VesselOutline, "semiAxes">,
): { readonly angle: number; readonly depth: number } | undefined {
  const x = window.width / 2;
  for (let angle = FLATTEST_RELIEF; angle <= STEEPEST_RELIEF; angle++) {
    for (let depth = 0; depth < Math.min(c, DEEPEST); depth += STEP) {
      const z = c - depth;
      const y = window.length / 2 + (labium.low - z) / tangent(angle);
      if ((x / a) ** 2 + (y / b) ** 2 + (z / c) ** 2 < 1) return { angle, depth: depth + CLEAR };
    }
  }
  return undefined;
}
