/** Points and turns in space. */
export type Vector = readonly [number, number, number];
/** Rows of a turn: where x, y and z of the screen lie in the instrument. */
export type Turn = readonly [Vector, Vector, Vector];

export const minus = (a: Vector, b: Vector): Vector => [a[0] - b[0], a[1] - b[1], a[2] - b[2]];
export const plus = (a: Vector, b: Vector, times = 1): Vector => [
  a[0] + times * b[0],
  a[1] + times * b[1],
  a[2] + times * b[2],
];
export const dot = (a: Vector, b: Vector): number => a[0] * b[0] + a[1] * b[1] + a[2] * b[2];
export const cross = (a: Vector, b: Vector): Vector => [
  a[1] * b[2] - a[2] * b[1],
  a[2] * b[0] - a[0] * b[2],
  a[0] * b[1] - a[1] * b[0],
];
export const length = (a: Vector): number => Math.hypot(...a);
export const unit = (a: Vector): Vector => {
  const size = length(a) || 1;
  return [a[0] / size, a[1] / size, a[2] / size];
};

/** About the screen's x, then its y, radians; kept square, however often it is turned. */
export function turned([x, y, z]: Turn, aboutX: number, aboutY: number): Turn {
  const mixed = (a: Vector, b: Vector, angle: number): Vector => {
    const [c, s] = [Math.cos(angle), Math.sin(angle)];
    return [c * a[0] + s * b[0], c * a[1] + s * b[1], c * a[2] + s * b[2]];
  };
  const tilted = mixed(z, y, aboutX);
  const right = unit(mixed(x, tilted, aboutY));
  const out = unit(cross(right, mixed(y, z, -aboutX)));
  return [right, cross(out, right), out];
}
