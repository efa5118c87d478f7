/** One fingering of a vessel as a linear system: a port for each open opening, and the whole air as a spring. */
import type { AirState } from "./airState.js";
import type { FieldValues } from "./ellipsoidHarmonics.js";
import { solveLast } from "./gauss.js";
import { WAVE_CONSTANTS, waveConstants } from "./losses.js";
import type { Inside } from "./vesselInside.js";
import type { WallPoint } from "./vesselShape.js";
import { solvingWork } from "./work.js";

/** An opening as the solver needs it. */
export interface Opening {
  readonly place: WallPoint;
  readonly fields: FieldValues;
  /** On the outer face. */
  readonly exit: WallPoint;
  readonly area: number;
  /** Of the circle of equal area, m. */
  readonly radius: number;
  /** 2 × area / perimeter, m: what friction in the chimney goes by. */
  readonly lossRadius: number;
  readonly chimney: number;
  /** Depth of the chimney between the curved faces of the wall, m. */
  readonly depth: number;
  /** Inner and outer ends, and what a finger, a lip or measured notes add, m on its area. */
  readonly ends: number;
}

/** Relative step of the wave number for the slope. */
const SLOPE_STEP = 1e-6;
/** Work of the coupling of two openings at one frequency, microseconds (`work.ts`). */
const PAIR_WORK = 0.2;

/** Steps by a pole's slope; each is half of Newton's work. */
export const CHORDS = 2;

/** A complex wave number at or near a resonance, the residual there, and its slope. */
export interface Pole {
  /** 1/m. */
  readonly re: number;
  readonly im: number;
  readonly residual: readonly [number, number];
  readonly slope: readonly [number, number];
}

/** −f/s, complex. */
function stepTo([fr, fi]: Pole["residual"], [sr, si]: Pole["slope"]): readonly [number, number] {
  const norm = sr * sr + si * si;
  return [-(fr * sr + fi * si) / norm, -(fi * sr - fr * si) / norm];
}

/** One fingering's equations, pressure over jkρc: (Z + g₀)·U = 0 for the flows U, solved for the wave number. */
export class System {
  constructor(
    private readonly air: AirState,
    private readonly inside: Inside,
    private readonly open: readonly Opening[],
    private readonly coupled: readonly (readonly number[])[],
    private readonly ways: readonly (readonly number[])[],
    private readonly volume: number,
    private readonly area: number,
  ) {}

  /** Wave number of the lumped vessel. */
  get start(): number {
    const conductance = this.open.reduce((sum, { area, depth, ends }) => sum + area / (depth + ends), 0);
    return Math.sqrt(conductance / this.volume);
  }

  /** Of a step, microseconds (`work.ts`). */
  get work(): number {
    const n = this.open.length + 1;
    return 2 * (solvingWork(n, 0) + PAIR_WORK * n * n);
  }

  /** Newton's step toward the resonance from a complex wave number. */
  newton(re: number, im: number): readonly [number, number] | undefined {
    const { residual, slope } = this.pole(re, im);
    const step = stepTo(residual, slope);
    return step.every(Number.isFinite) ? step : undefined;
  }

  /** The residual at a complex wave number, and its slope there. */
  pole(re: number, im: number): Pole {
    const h = re * SLOPE_STEP;
    const residual = this.residual(re, im);
    const [gr, gi] = this.residual(re + h, im);
    return { re, im, residual, slope: [(gr - residual[0]) / h, (gi - residual[1]) / h] };
  }

  /**
   * Where a pole of nearly the same equations lies in these, 1/m, by its own slope. Wall losses follow the real wave number only, so that
   * one step leaves an error of a ten-thousandth of the way, a second one none.
   */
  displaced({ re, im, residual, slope }: Pole): number {
    let [there, across] = [re, im];
    for (let round = 0; round < CHORDS; round++) {
      const [gr, gi] = this.residual(there, across);
      const step = stepTo([gr - residual[0], gi - residual[1]], slope);
      there += step[0];
      across += step[1];
    }
    return there;
  }

  /** −1/(1ᵀZ⁻¹1) − g₀ times (volume × k²), by elimination of [Z 1; 1ᵀ 0]: zero where the flows sustain each other. */
  private residual(re: number, im: number): readonly [number, number] {
    const n = this.open.length + 1;
    const [mr, mi] = [new Float64Array(n * n), new Float64Array(n * n)];
    const [br, bi, out] = [new Float64Array(n), new Float64Array(n), new Float64Array(2)];
    const growth = this.inside.growthAt(re);
    for (let i = 0; i < n - 1; i++) {
      for (let j = 0; j < n - 1; j++) [mr[i * n + j], mi[i * n + j]] = this.impedance(i, j, re, im, growth);
      mr[i * n + n - 1] = 1;
      mr[(n - 1) * n + i] = 1;
    }
    br[n - 1] = 1;
    solveLast(n, mr, mi, br, bi, out);
    const [lr, li] = [out[0] as number, out[1] as number];
    // k² V, then the spring's softening by heat exchange at the wall.
    const [kr, ki] = [(re * re - im * im) * this.volume, 2 * re * im * this.volume];
    const [tr, ti] = this.softening(re);
    const [ar, ai] = [lr * kr - li * ki, lr * ki + li * kr];
    return [ar * tr - ai * ti + 1, ar * ti + ai * tr];
  }

  /** Of the flows out of openings `i` and `j`, over jkρc, 1/m. */
  private impedance(
    i: number,
    j: number,
    re: number,
    im: number,
    growth: ReturnType<Inside["growthAt"]>,
  ): readonly [number, number] {
    const m = this.open[i] as Opening;
    const n = this.open[j] as Opening;
    const own = growth(m.place, n.place);
    if (i !== j) {
      // The static fields, and the delay of the way round.
      const d = this.ways[i]?.[j] ?? 0;
      const size = 1 / (4 * Math.PI * d);
      const phase = Math.exp(im * d) * Math.cos(re * d);
      return [(this.coupled[i]?.[j] ?? 0) + own + size * (phase - 1), -size * Math.exp(im * d) * Math.sin(re * d)];
    }
    const [vr, vi] = this.friction(re, m.lossRadius);
    const depth = Math.tan(re * m.depth) / re;
    // Radiation: −jk/4π.
    return [own + (depth * vr + m.ends) / m.area + im / (4 * Math.PI), (depth * vi) / m.area - re / (4 * Math.PI)];
  }

  /** How much heavier friction makes the air of a chimney. */
  private friction(k: number, radius: number): readonly [number, number] {
    const out = new Float64Array(WAVE_CONSTANTS);
    waveConstants(this.air, radius, k, out);
    const [gr, gi, zr, zi] = out as unknown as readonly [number, number, number, number];
    return [(gr * zi + gi * zr) / k, -(gr * zr - gi * zi) / k];
  }

  /**
   * 1 + (γ−1)(1−j)δA/2V: within the thermal boundary layer δ = √(2μ/(Pr ρω)) of the wall A the air's spring is isothermal
   * (any textbook of acoustics, e.g. L. Cremer & H. Müller; from memory).
   */
  private softening(k: number): readonly [number, number] {
    const { losses, viscosity, density, prandtl, soundSpeed, heatCapacityRatio } = this.air;
    if (!losses) return [1, 0];
    const layer = Math.sqrt((2 * viscosity) / (prandtl * density * k * soundSpeed));
    const share = ((heatCapacityRatio - 1) * layer * this.area) / (2 * this.volume);
    return [1 + share, -share];
  }
}
