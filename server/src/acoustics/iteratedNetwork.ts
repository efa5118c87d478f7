import { ConjugateResiduals } from "./conjugateResiduals.js";
import type { FrequencyPoint } from "./frequencyPoint.js";
import { Ladder } from "./ladder.js";
import type { NetworkGeometry } from "./networkGeometry.js";
import type { PortStates } from "./portStates.js";
import { Residual } from "./residual.js";

/** Eleven iterations suffice for a hundred holes in a row and a tolerance of 1e-12; wild columns, holes over holes, took at most 26. */
const MOST_ROUNDS = 40;

/**
 * A column's equations solved by iteration: each opening first as if it were not coupled with the others (`Ladder`), then the couplings (`Residual`),
 * until the residual vanishes. An iteration costs the square of the open ports, and since the air between openings is a small part of what each has to move, few are needed, however many the openings. Small columns are solved faster by elimination (`Network`).
 */
export class IteratedNetwork {
  private readonly ladder: Ladder;
  private readonly residual: Residual;
  private readonly rounds: ConjugateResiduals;
  private readonly xRe: Float64Array;
  private readonly xIm: Float64Array;

  constructor(geometry: NetworkGeometry) {
    const m = geometry.ports.length;
    this.ladder = new Ladder(m);
    this.residual = new Residual(geometry);
    this.rounds = new ConjugateResiduals(m, MOST_ROUNDS);
    this.xRe = new Float64Array(m);
    this.xIm = new Float64Array(m);
  }

  /**
   * Writes as `Network` does.
   * @param tolerance of the residual, as a share of the ladder's own response to the jet's pressure @returns the iterations it took; undefined, and nothing written, where they do not converge, as at an undamped resonance
   */
  impedance(point: FrequencyPoint, states: PortStates, tolerance: number, out: Float64Array): number | undefined {
    const { ladder, residual, xRe, xIm } = this;
    const mouth = xRe.length - 1;
    ladder.set(point, states);
    xRe.fill(0);
    xIm.fill(0);
    xRe[mouth] = -1;
    ladder.solve(xRe, xIm);
    const apply = (re: Float64Array, im: Float64Array) => {
      residual.of(point, states, re, im);
      re.set(residual.re);
      im.set(residual.im);
      ladder.solve(re, im);
    };
    const rounds = this.rounds.solve(apply, xRe, xIm, tolerance);
    const r = xRe[mouth] as number;
    const i = xIm[mouth] as number;
    const norm = r * r + i * i;
    if (rounds === undefined || norm === 0) return undefined;
    out[0] = r / norm;
    out[1] = -i / norm;
    return rounds;
  }
}
