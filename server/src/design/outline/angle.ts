/** Angles of the geometry, in degrees. */
const RADIANS = Math.PI / 180;

export function tangent(degrees: number): number {
  return Math.tan(degrees * RADIANS);
}
