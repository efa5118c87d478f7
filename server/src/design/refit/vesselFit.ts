/** A vessel's size and holes brought to their notes: least squares from a start, then the worst note brought nearest. */
import { constrainedLeastSquares, type LeastSquaresSolution } from "./constrainedLeastSquares.js";
import { GOOD_DRAWN, largest } from "./inTune.js";
import { minimaxFit } from "./minimax.js";
import { type Inequality, Infeasible } from "./quadraticProgram.js";
import type { VesselTuner } from "./vesselTuner.js";

const MOST_STEPS = 25;

interface FitOptions {
  readonly mostSteps?: number;
  /** What holds in place of the tuner's own limits. */
  readonly limits?: readonly Inequality[];
}

/**
 * A fit of size (1 is as drawn) and radii, mm, from a start.
 * @param factor what the size is drawn to; where there is none to grow by, it is held
 * @throws Infeasible, RangeError, Cancelled
 */
export function fitFrom(
  tuner: VesselTuner,
  factor: number | undefined,
  start: readonly number[],
  { mostSteps = MOST_STEPS, limits = tuner.limits }: FitOptions = {},
): LeastSquaresSolution {
  return constrainedLeastSquares({
    start,
    evaluate: (x) => {
      const notes = tuner.at(x);
      return notes && { residuals: notes.cents, jacobian: () => tuner.slopes(notes) };
    },
    prior: tuner.prior(factor ?? 1),
    inequalities: [...limits, ...(factor === undefined ? tuner.sizeHeld : [])],
    mostSteps,
  });
}

/** With the worst note brought nearer, where that helps. */
export function withMinimax(
  tuner: VesselTuner,
  solved: LeastSquaresSolution,
  isHeld: boolean,
  limits: readonly Inequality[] = tuner.limits,
): LeastSquaresSolution {
  const inequalities = [...limits, ...(isHeld ? tuner.sizeHeld : [])];
  const stiffness = tuner.prior(1).map(({ weight }) => weight);
  try {
    const x = minimaxFit(tuner, solved.x, inequalities, stiffness, GOOD_DRAWN);
    const residuals = tuner.at(x)?.cents;
    return residuals === undefined || largest(residuals) >= largest(solved.residuals)
      ? solved
      : { ...solved, x, residuals };
  } catch (error) {
    if (error instanceof RangeError || error instanceof Infeasible) return solved;
    throw error;
  }
}
