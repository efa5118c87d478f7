import { closedSeries } from "./hole.js";

/**
 * What an elliptic opening does that the circle of equal area does not (docs/coupled-model.md §11), over that circle's radius.
 * L = ln(length along the bore / width across). From static finite elements of one oval hole alone, 1 : 2 to 2 : 1 on cylinders
 * 2 to 3.3 times as wide (test/reference/fem/single.py): met within 0.006.
 */

/**
 * Change of the inner length on a bore, the saddle's change apart; in a thin wall with what the two ends are to each other.
 * @param delta circle over bore radius @param depth of the chimney over the circle's radius
 */
export function ovalInner(delta: number, elongation: number, depth: number): number {
  const l = Math.log(elongation);
  const ends = (0.011 * l * l - 0.05 * delta * l) * Math.exp(-2.1 * depth);
  return -(0.05 + 0.092 * delta ** 2) * l * l - 0.038 * delta * l + ends;
}

/** Change of the outer length on a cylinder, its saddle's change in it. @param q circle over outer radius */
export function ovalOuter(q: number, elongation: number): number {
  const l = Math.log(elongation);
  return -(0.053 + 0.25 * q ** 2) * l * l + (0.18 * q + 0.2 * q ** 2) * l;
}

/**
 * By how much a long open hole widens the bore for the air that passes, compared with a round one. In a deep chimney, L·0.03 apart, the exponent is that of
 * the finite elements; of a hole in a thin wall it is the polarizability's of an ellipse (H. A. Bethe, Phys. Rev. 66 (1944) 163: 0.75 + 0.093 L).
 * Between, finite elements of thin walls alone (test/reference/fem/corners.py, group `thin`).
 * @param decay exp(−3.68 t/b), how little of the flow reaches the chimney's end and comes back; its root is what reaches the end
 */
export function ovalSeries(elongation: number, decay: number): number {
  const l = Math.log(elongation);
  return elongation ** (0.585 + 0.03 * l + (0.165 + 0.06 * l) * Math.sqrt(decay));
}

/**
 * Series length of a closed oval over −(b δ²): as deep as the chimney is for its length along the bore, since so the flow goes down and comes back.
 * @param delta circle over bore radius @param depth of the chimney over the circle's radius
 */
export function ovalClosedSeries(delta: number, depth: number, elongation: number): number {
  const l = Math.log(elongation);
  return elongation ** (0.585 + 0.03 * l) * closedSeries(delta, depth / Math.sqrt(elongation));
}

/** Half the perimeter over π, m: a circle's radius (Ramanujan 1914). */
export function meanRadius(along: number, across: number): number {
  const h = ((along - across) / (along + across)) ** 2;
  return ((along + across) / 2) * (1 + (3 * h) / (10 + Math.sqrt(4 - 3 * h)));
}
