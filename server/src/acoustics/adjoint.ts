import type { Linearised } from "./network.js";
import type { PortStates } from "./portStates.js";
import type { Response } from "./response.js";

/**
 * How the reactance at one wave number follows small changes of a column, by the adjoint method: the equations M x = b are
 * solved once with their transpose Mᵀ y = e, and a change of M costs what M′x costs, for dx_e = −y · (M′ − M) x to first order.
 */
export class Adjoint {
  private readonly solution: Linearised;
  /** M x − b, left by rounding: subtracted, so that it does not count as a change. */
  private readonly leftRe: Float64Array;
  private readonly leftIm: Float64Array;
  /** Z² at the jet, over (ρc/S)². */
  private squareRe = Number.NaN;
  private squareIm = Number.NaN;

  constructor(private readonly here: Response) {
    const m = here.geometry.ports.length;
    const vector = () => new Float64Array(m);
    this.solution = { xRe: vector(), xIm: vector(), yRe: vector(), yIm: vector() };
    this.leftRe = vector();
    this.leftIm = vector();
  }

  /** Whether the other column's equations are numbered and measured alike, so that they can be compared. */
  compares({ geometry }: Response): boolean {
    const own = this.here.geometry;
    return (
      geometry.area === own.area &&
      geometry.foot === own.foot &&
      geometry.order.length === own.order.length &&
      geometry.order.every((hole, i) => hole === own.order[i])
    );
  }

  /** Moves to a wave number and a fingering. */
  set(k: number, states: PortStates): void {
    const { here, solution } = this;
    here.linearise(k, states, solution);
    const { re, im } = here.residualOf(k, states, solution);
    this.leftRe.set(re);
    this.leftIm.set(im);
    // Z = 1/x of the flow the jet drives.
    const mouth = re.length - 1;
    const [r, i] = [solution.xRe[mouth] as number, solution.xIm[mouth] as number];
    const norm2 = (r * r + i * i) ** 2;
    this.squareRe = (r * r - i * i) / norm2;
    this.squareIm = (-2 * r * i) / norm2;
  }

  /** First-order change of the reactance, over ρc/S, in a column that differs slightly. @param k its wave number */
  change(other: Response, k: number, states: PortStates): number {
    const { yRe, yIm } = this.solution;
    const { re, im } = other.residualOf(k, states, this.solution);
    let r = 0;
    let i = 0;
    for (let row = 0; row < re.length; row++) {
      const dr = (re[row] as number) - (this.leftRe[row] as number);
      const di = (im[row] as number) - (this.leftIm[row] as number);
      r += (yRe[row] as number) * dr - (yIm[row] as number) * di;
      i += (yRe[row] as number) * di + (yIm[row] as number) * dr;
    }
    // dZ = −Z² dx, dx = −(r + ji).
    return this.squareRe * i + this.squareIm * r;
  }
}
