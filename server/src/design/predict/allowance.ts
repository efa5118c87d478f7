/** How much work the findings of a file may take, so that they appear within some two seconds whatever the file holds. */

/** Microseconds as counted in `acoustics/work.ts`. */
export interface Allowance {
  /** For what fingerings sound. */
  readonly prediction: number;
  /** For the remedies in findings. */
  readonly remedies: number;
}

/** Ten holes and thirty fingerings take a sixtieth of it, a hundred holes and fifty fingerings about half. */
const PREDICTION_WORK = 450_000;
/** A remedy of ten holes takes a seven-hundredth of it. */
const REMEDY_WORK = 200_000;

/** Of each of a file's designs. */
export function allowanceFor(designs: number): Allowance {
  return { prediction: PREDICTION_WORK / designs, remedies: REMEDY_WORK / designs };
}
