import { FLANGED_LENGTH } from "./radiation.js";

/**
 * A lip over part of an opening: our own model, no measurement behind it. The free share is taken as a concentric
 * circle of radius r = b√(1−cover). Its inner side is a constriction in the opening's duct (V. A. Fok 1941), its outer side has
 * the end correction of the uncovered opening where the rim is free and that of a plane flange where lip or finger face it, in
 * proportion to the cover. A real lip covers one side and comes close to the opening: take ±25 % of the added length, a constant
 * shift at a mouth.
 */

/** 1/ψ(ξ): what a duct leaves of the end correction of a concentric hole of ξ times its radius (Fok 1941, from memory). */
const FOK = [1, -1.4092, 0, 0.33818, 0, 0.06793, -0.02287, 0.03015, -0.01641] as const;

/** Fok's factor, never below 0 (the fit ends at −0.012 for ξ = 1, where it should vanish). */
export function constrictionFactor(ratio: number): number {
  return Math.max(
    0,
    FOK.reduceRight<number>((sum, c) => sum * ratio + c, 0),
  );
}

/**
 * Length the cover adds to the opening, m, referred to the area of the whole opening: 0 uncovered, infinite at full cover.
 * @param radius of the whole opening, m
 * @param plainEnd end correction of the uncovered opening at low frequency, over its radius
 */
export function coverLength(radius: number, plainEnd: number, cover: number): number {
  const ratio = Math.sqrt(1 - cover);
  const outer = plainEnd + (FLANGED_LENGTH - plainEnd) * cover;
  return radius * ((FLANGED_LENGTH * constrictionFactor(ratio) + outer) / ratio - plainEnd);
}

/**
 * Length that a finger over part of a tone hole adds to it, m, referred to the area of the whole hole: a thin straight-edged plate in
 * the outer surface, over one side; 0 and infinite at the ends. PLATE is a parabola through static finite elements of one hole alone, covered by
 * a quarter, a half and three quarters (test/reference/fem/cover.py and single.py; meshes down to a fiftieth of the radius at half, as
 * a plate's edge converges with h only): holes 0.25 to 0.44 of the bore wide are met within 3 %, half covered within 1 %. A fingertip is
 * not a plate: how much of a hole it covers is anyone's guess, and ±0.1 of cover is some 20 % of this.
 * @param radius of the circle of the hole's area, m
 */
export function fingerLength(radius: number, cover: number): number {
  const off = cover - 0.5;
  const plate = PLATE[0] + PLATE[1] * off + PLATE[2] * off * off;
  return (plate * radius * cover ** 1.5) / Math.sqrt(1 - cover);
}

const PLATE = [1.251, -0.061, 0.79] as const;
