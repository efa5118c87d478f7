/** Bodies as a scanner leaves them. */
import { randomNumbers } from "../../server/src/survey/mesh/statistics.js";
import type { Body } from "./implicitMesh.js";

/** mm: root mean square of the bumps, and how long they are. */
export const BUMPS = 0.04;
const WAVES = [1.5, 5] as const;

/** A surface moved in and out by waves in all directions. */
export function bumpy(body: Body, seed: number): Body {
  const random = randomNumbers(seed);
  const count = 24;
  const waves = Array.from({ length: count }, () => {
    const [up, around] = [2 * random() - 1, 2 * Math.PI * random()];
    const k = (2 * Math.PI) / (WAVES[0] + (WAVES[1] - WAVES[0]) * random());
    const flat = Math.sqrt(1 - up * up) * k;
    return [flat * Math.cos(around), flat * Math.sin(around), up * k, 2 * Math.PI * random()] as const;
  });
  const height = BUMPS * Math.sqrt(2 / count);
  return (x, y, z) => {
    const plain = body(x, y, z);
    // Far from the surface a bump moves nothing.
    if (Math.abs(plain) > 1.5) return plain;
    let moved = plain;
    for (const [a, b, c, phase] of waves) moved += height * Math.cos(a * x + b * y + c * z + phase);
    return moved;
  };
}

/** Wood with holes through its front, square to the axis: the place of each along it, and its diameter. */
export function drilled(
  wood: number,
  [x, y, z]: readonly [number, number, number],
  holes: readonly (readonly [at: number, diameter: number])[],
): number {
  return holes.reduce((body, [at, d]) => Math.max(body, y > 0 ? d / 2 - Math.hypot(x, z - at) : -9), wood);
}
