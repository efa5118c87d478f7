/**
 * The pressure along the bore in one note, for display: without losses, every open hole by itself. Pressure nodes are right to
 * the eye; the pitch is not taken from here.
 */
import { boreRadiusAt, type Column, type Cover } from "./column.js";

/** Length that a hole's two ends add, over its radius: flanged inside, between flanged and unflanged outside (Fletcher and Rossing, 8.3). */
const HOLE_ENDS = 1.6;
/** Length that an open foot adds, over its radius: unflanged (Levine and Schwinger, Phys. Rev. 73, 1948). */
const FOOT_END = 0.6133;
/** Points along the bore between which it is drawn straight. */
const POINTS = 160;
/** Steps between points: the bore's law is integrated by the midpoint rule. */
const STEPS = 4;

/**
 * Pressure at places evenly spread from the mouth to the foot, with its sign, the largest amplitude ±1.
 * @param k ω/c of the note, 1/m
 */
export function standingWave(column: Column, covers: readonly Cover[], k: number): readonly number[] {
  const foot = column.bore.at(-1)?.x ?? 0;
  const open = column.holes.flatMap((hole, i) => {
    const share = 1 - (covers[i] ?? 1);
    const area = Math.PI * hole.radius * (hole.halfLength ?? hole.radius) * share;
    return area > 0 ? [{ x: hole.x, inertance: (hole.chimney + HOLE_ENDS * hole.radius) / area }] : [];
  });
  const areaAt = (x: number) => Math.PI * boreRadiusAt(column.bore, x) ** 2;
  // p and q = jωρ·flow/k as real numbers: dp/dx = −(k/S)·q, dq/dx = k·S·p. From the foot upward.
  const footRadius = column.bore.at(-1)?.radius ?? 0;
  const isStopped = column.foot === "stopped" || covers[column.holes.length] === 1;
  let p = isStopped ? 1 : Math.sin(k * FOOT_END * footRadius);
  let q = isStopped ? 0 : Math.PI * footRadius ** 2 * Math.cos(k * FOOT_END * footRadius);
  const pressure = [p];
  const step = foot / (POINTS * STEPS);
  for (let i = POINTS * STEPS; i > 0; i--) {
    const [here, next] = [i * step, (i - 1) * step];
    const area = areaAt((here + next) / 2);
    const middleP = p + (0.5 * step * k * q) / area;
    const middleQ = q - 0.5 * step * k * area * p;
    p += (step * k * middleQ) / area;
    q -= step * k * area * middleP;
    // The flow out of a hole is added to the flow upstream: p/(k·inertance).
    for (const hole of open) if (hole.x <= here && hole.x > next) q += p / (k * hole.inertance);
    if ((i - 1) % STEPS === 0) pressure.unshift(p);
  }
  const largest = Math.max(...pressure.map(Math.abs)) || 1;
  return pressure.map((value) => value / largest);
}
