import { ConjugateResiduals } from "./conjugateResiduals.js";
import type { FrequencyPoint } from "./frequencyPoint.js";
import { Ladder } from "./ladder.js";
import type { NetworkGeometry } from "./networkGeometry.js";
import type { PortStates } from "./portStates.js";
import { Residual } from "./residual.js";

/** Eleven rounds suffice for a hundred holes in a row and a tolerance of 1e-12; of wild ones, holes over holes, none took more than 26. */
const MOST_ROUNDS = 40;

/**
 * A column's equations solved in rounds: each opening first as if it were not coupled with the others (`Ladder`), then what they make of each other
 * (`Residual`), until nothing is left. A round costs the square of the open ports and no more, and as the air between openings is a small
 * part of what each has to move, the rounds are few, however many the openings. Small columns are solved sooner by elimination (`Network`).
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
   * @param tolerance what may be left of the equations, as a share of what the ladder alone makes of the jet's pressure
   * @returns the rounds it took; undefined, and nothing written, where they lead nowhere, as at an undamped resonance
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
