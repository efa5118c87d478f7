/** Reflection of a plane wave at an open end: R = −modulus · exp(−2jk·length). */
export interface EndReflection {
  readonly modulus: number;
  /** End correction, m for a radius in m. */
  readonly length: number;
}

/** End correction of a circle in an infinite baffle, over its radius, at low frequency (Norris & Sheng 1989; Nomura et al. 1960). */
export const FLANGED_LENGTH = 0.8216;
/** The same for a pipe with thin walls (H. Levine & J. Schwinger, Phys. Rev. 73 (1948) 383). */
const UNFLANGED_LENGTH = 0.6133;

/** β, η, a1, a2, a3, b1, b2, b3, b4 of F. Silva et al., J. Sound Vib. 322 (2009) 255–263 (from memory, checked against the integrals). */
const SILVA = {
  unflanged: [0.5, UNFLANGED_LENGTH, 0.8, 0.266, 0.0263, 0.0599, 0.238, -0.0153, 0.0015],
  flanged: [1, FLANGED_LENGTH, 0.73, 0.372, 0.0231, 0.244, 0.723, -0.0198, 0.00366],
} as const;

/**
 * Reflection at a pipe's end without flange or in an infinite baffle: modulus, and end correction in m; within 0.004 in modulus and 0.010 a in
 * length for ka ≤ 3.5. @param radius a, m @param k wave number, 1/m
 */
export function silvaEnd(kind: keyof typeof SILVA, radius: number, k: number): EndReflection {
  const [beta, eta, a1, a2, a3, b1, b2, b3, b4] = SILVA[kind];
  const x = (k * radius) ** 2;
  return {
    modulus: (1 + a1 * x) / (1 + (beta + a1) * x + a2 * x ** 2 + a3 * x ** 3),
    length: (radius * eta * (1 + b1 * x)) / (1 + b2 * x + b3 * x ** 2 + b4 * x ** 3),
  };
}

/**
 * What the rim's width adds to the end correction over the radius; `q` inner over outer radius: Dalmont et al. 2001, and a correction of our own, fitted to
 * finite elements of one end alone (test/reference/cylinder/bluntEnd.mjs), of at most 0.004.
 */
function rimTerm(q: number): number {
  const w = 1 - q;
  const corrected = w === 0 ? 0 : w * (0.06468 * Math.log(1 / w) - 0.1622 * q + 0.13378 * w * q);
  return 0.057 * q * (1 - q ** 5) + corrected;
}

/** End correction of a blunt end at low frequency, m. */
export function bluntLength(radius: number, outerRadius: number): number {
  const q = radius / outerRadius;
  return radius * (FLANGED_LENGTH + q * (UNFLANGED_LENGTH - FLANGED_LENGTH) + rimTerm(q));
}

/**
 * Blunt pipe end, the wall a flange of finite width: J.-P. Dalmont, C. J. Nederveen & N. Joly, J. Sound Vib. 244 (2001) 505–534 (from memory), and by how much
 * finite elements of one end alone differ from it (as above): below some ka of 1 over the wall's outer radius the end radiates as into free space, whatever
 * its wall, and grows longer. Within 0.001 radii and 0.002 in modulus of them for ka ≤ 0.4 and outer over inner radius to 2, 0.003 to 2.6; 0.006 and 0.02
 * for ka ≤ 1 to 2. Beyond, the published formula is left alone. ka ≤ 3.5.
 */
export function bluntEnd(radius: number, outerRadius: number, k: number): EndReflection {
  const x = k * radius;
  const q = radius / outerRadius;
  const free = UNFLANGED_LENGTH * radius * ((1 + 0.044 * x ** 2) / (1 + 0.19 * x ** 2) - 0.02 * Math.sin(2 * x) ** 2);
  const freeModulus = (1 + 0.2 * x - 0.084 * x ** 2) / (1 + 0.2 * x + 0.416 * x ** 2);
  const flanged = (FLANGED_LENGTH * radius) / (1 + (0.77 * x) ** 2 / (1 + 0.77 * x));
  const flangedModulus = (1 + 0.323 * x - 0.077 * x ** 2) / (1 + 0.323 * x + 0.923 * x ** 2);
  const rim = rimGrowth(x, q);
  return {
    modulus: flangedModulus + q * (freeModulus - flangedModulus) + rim.modulus,
    length: flanged + q * (free - flanged) + (rimTerm(q) + rim.length) * radius,
  };
}

/** What the rim's width adds with frequency, over the radius, and to the modulus. */
function rimGrowth(x: number, q: number) {
  const outer = x / q;
  const width = 0.122 * (1 / (q * q) - 1);
  return {
    length: ((width / (1 + width)) * x * x) / (1 + (outer / 1.5) ** 4),
    modulus: (0.5 * (1 - q) * x * x * (1 - 0.4 * outer - 0.33 * outer * outer)) / (1 + (outer / 1.7) ** 6),
  };
}

/** Impedance of an end over ρc/S, from its reflection. */
export function endImpedance({ modulus, length }: EndReflection, k: number): { re: number; im: number } {
  const phase = -2 * k * length;
  const gr = -modulus * Math.cos(phase);
  const gi = -modulus * Math.sin(phase);
  const norm = (1 - gr) ** 2 + gi * gi;
  return { re: (1 - gr * gr - gi * gi) / norm, im: (2 * gi) / norm };
}

/**
 * End correction of a flanged `u` × `v` rectangle (both m) over that of the circle of equal area, a ratio: uniform piston, closed form
 * (docs/coupled-model.md §6).
 */
export function rectangleFactor(u: number, v: number): number {
  const area = u * v;
  const mean =
    (2 / 3) * (u ** 3 + v ** 3 - (u * u + v * v) ** 1.5) + 2 * area * (u * Math.asinh(v / u) + v * Math.asinh(u / v));
  const circle = (8 / (3 * Math.PI)) * Math.sqrt(area / Math.PI);
  return mean / (2 * Math.PI * area) / circle;
}
