/**
 * Minimax: where the sum of squares is least, one note is left farther off than the rest; here the largest deviation is
 * minimized, in steps each a convex quadratic program with one unknown more, the bound t that no note may exceed (linearised
 * minimax: K. Madsen, J. Inst. Maths Applics 16 (1975) 321, from memory; here with squares beside it, so that the notes within the bound
 * stay good too).
 */
import { largest } from "./inTune.js";
import { normalEquations } from "./linear.js";
import type { Inequality } from "./quadraticProgram.js";
import { quadraticStep } from "./quadraticStep.js";

export interface Listener<N extends { readonly cents: readonly number[] }> {
  /** Undefined where a note is lost. */
  at(x: readonly number[]): N | undefined;
  /** Cents for one more of each unknown, `[note][unknown]`. */
  slopes(notes: N): readonly (readonly number[])[];
}

/** What is to be small, and its derivatives `[residual][unknown]`. */
interface Residuals {
  readonly residuals: readonly number[];
  readonly slopes: readonly (readonly number[])[];
}

/** Weight of all squares together relative to the bound's: enough to decide where the bound leaves a choice. */
const SHARE_OF_SQUARES = 0.05;
const USUAL_MOST_ROUNDS = 4;
/** A gain in the worst note that is not worth another iteration, cents. */
const LEAST_GAIN = 0.03;
/** Levenberg–Marquardt damping: slopes hold only nearby. Stronger until a step improves the worst note, then weaker. */
const FIRST_DAMPING = 0.06;
const STRONGER = 8;
const WEAKER = 1 / 4;
const MOST_TRIALS = 4;

/**
 * The point with the least worst note found, `x` at worst.
 * @param good worst deviation, cents, that is even enough
 * @param stiffness what a unit of each unknown's change costs, cents
 * @param beside what counts besides the notes, by its squares alone
 * @param mostRounds so many steps at most
 */
export function minimaxFit<N extends { readonly cents: readonly number[] }>(
  tuner: Listener<N>,
  x: readonly number[],
  inequalities: readonly Inequality[],
  stiffness: readonly number[],
  good: number,
  beside: (x: readonly number[]) => Residuals | undefined = () => undefined,
  mostRounds = USUAL_MOST_ROUNDS,
): readonly number[] {
  let here = tuner.at(x);
  let best = x;
  let damping = FIRST_DAMPING;
  for (let round = 0; round < mostRounds && here !== undefined && largest(here.cents) > good; round++) {
    const next = nextPoint(tuner, best, here, inequalities, stiffness, damping, beside(best));
    if (next === undefined) break;
    const gain = largest(here.cents) - largest(next.notes.cents);
    here = next.notes;
    best = next.x;
    damping = next.damping * WEAKER;
    if (gain < LEAST_GAIN) break;
  }
  return best;
}

function nextPoint<N extends { readonly cents: readonly number[] }>(
  tuner: Listener<N>,
  from: readonly number[],
  here: N,
  inequalities: readonly Inequality[],
  stiffness: readonly number[],
  firstDamping: number,
  beside: Residuals | undefined,
): { readonly x: readonly number[]; readonly notes: N; readonly damping: number } | undefined {
  const slopes = tuner.slopes(here);
  for (let trial = 0; trial < MOST_TRIALS; trial++) {
    const damping = firstDamping * STRONGER ** trial;
    const step = minimaxStep(here.cents, slopes, inequalities, stiffness, from, damping, [], beside);
    const x = from.map((value, i) => value + (step[i] ?? 0));
    const notes = tuner.at(x);
    if (notes !== undefined && largest(notes.cents) < largest(here.cents)) return { x, notes, damping };
  }
  return undefined;
}

/** The step that minimizes the largest deviation by the slopes; arguments as above. */
export function minimaxStep(
  cents: readonly number[],
  slopes: readonly (readonly number[])[],
  inequalities: readonly Inequality[],
  stiffness: readonly number[],
  x: readonly number[],
  damping = 0,
  away: readonly number[] = [],
  beside?: Residuals,
): readonly number[] {
  const n = x.length;
  const squares = normalEquations(cents, slopes, n);
  const others = beside && normalEquations(beside.residuals, beside.slopes, n);
  // The bound t is one unknown more.
  const hessian = [
    ...squares.hessian.map((line, i) => [
      ...line.map((value, j) => {
        const own = i === j ? damping * value + (stiffness[i] ?? 0) ** 2 : 0;
        return SHARE_OF_SQUARES * value + (others?.hessian[i]?.[j] ?? 0) + own;
      }),
      0,
    ]),
    [...new Array<number>(n).fill(0), cents.length],
  ];
  const gradient = [
    ...squares.gradient.map(
      (value, i) => SHARE_OF_SQUARES * value + (others?.gradient[i] ?? 0) + (stiffness[i] ?? 0) ** 2 * (away[i] ?? 0),
    ),
    0,
  ];
  const bounds = slopes.flatMap((row, note): Inequality[] =>
    [1, -1].map((sign) => ({
      row: new Map([...row.map((slope, i) => [i, -sign * slope] as const), [n, 1]]),
      least: sign * (cents[note] ?? 0) - sign * row.reduce((sum, slope, i) => sum + slope * (x[i] ?? 0), 0),
    })),
  );
  return quadraticStep(hessian, gradient, [...inequalities, ...bounds], [...x, 0]).step.slice(0, n);
}
