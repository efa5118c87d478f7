/**
 * The effect of a uniform size on bodies other than a column of air: by rule alone. Nothing here predicts one of them; the product's
 * model is of air columns and vessels.
 */

export interface SizeRule {
  /** What is kept while it grows. */
  readonly kept: string;
  /** The frequency goes with the size to this power. */
  readonly power: number;
}

export interface OtherBody {
  readonly rules: readonly SizeRule[];
  /** The formula that the powers come from, with f the frequency. */
  readonly formula: string;
  readonly source: string;
  /** What the rule leaves out. */
  readonly leavesOut: string;
}

const FLETCHER_ROSSING = "Fletcher & Rossing, The Physics of Musical Instruments, 2nd ed. (1998), from memory";

/** Size s: length, thickness, diameter all times s, the material the same. */
export const OTHER_BODIES = {
  string: {
    rules: [
      { kept: "the same tension: the string grows thicker and heavier, its pull does not", power: -2 },
      { kept: "the same stress: the pull grows with the section, as near to breaking as before", power: -1 },
    ],
    formula: "f = √(T/µ) / 2L, with T the tension, µ the mass per length, L the length",
    source: `Mersenne's laws (Harmonie universelle, 1636); ${FLETCHER_ROSSING}, ch. 2`,
    leavesOut: "stiffness, which makes overtones sharp, and the effect of the instrument's body",
  },
  bar: {
    rules: [{ kept: "the same material and shape", power: -1 }],
    formula: "f = 1.028 (h/L²) √(E/ρ) of a free straight bar, with h its thickness, E/ρ of its material",
    source: `Euler and Bernoulli's beam; first root 4.7300 of a free bar; ${FLETCHER_ROSSING}, ch. 2`,
    leavesOut: "an undercut that was tuned by hand, the resonator beneath, wood whose grain differs",
  },
  bell: {
    rules: [{ kept: "the same alloy and profile", power: -1 }],
    formula:
      "f = c/s × a number for the shape, with c the speed of sound in the alloy, s the size; the weight goes with s³",
    source: `similarity of linear elasticity: a shape without a length of its own; ${FLETCHER_ROSSING}, ch. 21`,
    leavesOut:
      "what a founder changes with the size: small bells are cast thicker than the rule says, and bells are tuned on a lathe",
  },
  plate: {
    rules: [{ kept: "the same material and shape, thickness growing with it", power: -1 }],
    formula:
      "f = (λ²/2πa²) √(D/ρh), D = Eh³/12(1 − ν²), with a the radius and h the thickness; λ² = 10.2158 clamped at its rim",
    source: "Leissa, Vibration of Plates, NASA SP-160 (1969), from memory",
    leavesOut: "how it is held, and domes and hammered dents, which stiffen it",
  },
  membrane: {
    rules: [
      { kept: "the same tension per length of its rim, the skin growing thicker with it", power: -1.5 },
      { kept: "the same stress: tension grows with the thickness", power: -1 },
      { kept: "the same skin at the same tension on a larger rim", power: -1 },
    ],
    formula: "f = (2.4048/2πa) √(T/σ), with a the radius, T the tension per length, σ the mass per area",
    source: `first zero 2.4048 of J₀ (Abramowitz & Stegun, table 9.5); ${FLETCHER_ROSSING}, ch. 3`,
    leavesOut: "the air that moves along, which lowers the first mode of a drum, and the shell",
  },
} as const satisfies Record<string, OtherBody>;

export type BodyName = keyof typeof OTHER_BODIES;
export const BODY_NAMES = Object.keys(OTHER_BODIES) as BodyName[];
export const bodyCalled = (name: BodyName): OtherBody => OTHER_BODIES[name];

/** Said with every answer. */
export const NOTHING_BUT_THE_RULE =
  "By rule alone: nothing but this formula is behind it, no model of such a body and no measurement. Make a small one first.";
