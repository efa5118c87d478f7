/** What the design or the request holds fixed, reported as an obstacle with the value that the notes need. */
import { t } from "../../words/translation.js";
import type { Constraints } from "../constraints/constraints.js";
import { nameOf } from "../constraints/forbidden.js";
import { MM, sizesBeside } from "../constraints/limit.js";
import { type Unknown, unknownsOf, valueIn } from "../constraints/unknowns.js";
import type { Analysis } from "../predict/analysis.js";
import { expectedCost } from "./constrainedLeastSquares.js";
import { coarseFit, type Fit, type FitProblem, STIFFNESS } from "./fit.js";
import { type Answer, ENOUGH_ANSWERS, SHOWN, STEPS_BEYOND_A_LIMIT } from "./obstacles.js";
import { Infeasible } from "./quadraticProgram.js";

export interface HeldFast {
  readonly analysis: Analysis;
  readonly constraints: Constraints;
  readonly column: Parameters<typeof valueIn>[1];
  /** The problem in which more dimensions may move, the last of its unknowns. */
  readonly with: (more: readonly Unknown[]) => FitProblem;
}

/** A fixed dimension is named if freeing it leaves less than this share of the sum of squares. */
const WORTH_SAYING = 0.5;

/** For dimensions that are held fixed although the notes would come out far better if they were free. @param found the fit without them */
export function answersHeldFast(held: HeldFast, problem: FitProblem, found: Fit): readonly Answer[] {
  const promising = expected(held, dimensionsHeld(held, problem), found)
    .filter(({ cost }) => cost < WORTH_SAYING * found.cost)
    .sort((a, b) => a.cost - b.cost)
    .slice(0, ENOUGH_ANSWERS);
  return promising.flatMap(({ unknown, freed }) => (problem.isSpent() ? [] : answer(held, unknown, freed, found)));
}

function dimensionsHeld(
  { analysis: { instrument }, column, constraints }: HeldFast,
  { unknowns }: FitProblem,
): readonly Unknown[] {
  const all = unknownsOf(instrument, column, "all", { ...constraints, isFixed: () => false });
  const moves = ({ kind, index }: Unknown) => unknowns.some((own) => own.kind === kind && own.index === index);
  return all.filter((unknown) => unknown.kind !== "stopper" && unknown.kind !== "hole-undercut" && !moves(unknown));
}

interface Promising {
  readonly unknown: Unknown;
  readonly freed: FitProblem;
  readonly cost: number;
}

/** What the fit would cost with one of the dimensions free, by the slopes of all, which are worked out at once. */
function expected(held: HeldFast, dimensions: readonly Unknown[], found: Fit): readonly Promising[] {
  const { tuner } = held.with(dimensions);
  const notes = tuner.at([...found.x, ...dimensions.map((unknown) => MM * valueIn(unknown, held.column))]);
  if (notes === undefined) return [];
  const slopes = tuner.slopes(notes);
  const moving = found.x.length;
  return dimensions.flatMap((unknown, place) => {
    const freed = held.with([unknown]);
    const x = [...found.x, MM * valueIn(unknown, held.column)];
    const jacobian = slopes.map((row) => [...row.slice(0, moving), row[moving + place] ?? 0]);
    const prior = freed.unknowns.map(({ kind }, i) => ({ value: x[i] ?? 0, weight: STIFFNESS[kind] }));
    try {
      const here = { residuals: notes.cents, jacobian };
      return [{ unknown, freed, cost: expectedCost({ prior, inequalities: freed.limits }, x, here) }];
    } catch (error) {
      if (error instanceof Infeasible) return [];
      throw error;
    }
  });
}

function answer(held: HeldFast, unknown: Unknown, freed: FitProblem, found: Fit): readonly Answer[] {
  const present = MM * valueIn(unknown, held.column);
  try {
    const fit = coarseFit(freed, [...found.x, present], STEPS_BEYOND_A_LIMIT);
    const wanted = fit.x.at(-1) ?? present;
    if (fit.cost > WORTH_SAYING * found.cost || Math.abs(wanted - present) < SHOWN) return [];
    return [
      {
        obstacle: { ...words(held, unknown, present, wanted), limit: present, needed: wanted, unit: "mm" },
        cost: fit.cost,
      },
    ];
  } catch (error) {
    if (error instanceof Infeasible || error instanceof RangeError) return [];
    throw error;
  }
}

function words({ analysis, constraints }: HeldFast, unknown: Unknown, present: number, wanted: number) {
  const name = nameOf(analysis, unknown);
  const isWidth = unknown.kind === "hole-radius" || unknown.kind === "station-radius";
  // Positions are given as in the file, widths as printed.
  const { unitMillimetres, printedUnit } = analysis.instrument;
  const factor = isWidth ? 2 : unitMillimetres / (MM * printedUnit);
  const [is, wants] = sizesBeside([factor * present, factor * wanted], analysis);
  const isFixed = constraints.isFixed(unknown.path.slice(0, -1));
  const message = isWidth
    ? isFixed
      ? t`${name} is \`fixed\` at a width of ${is}, but these notes need ${wants}`
      : t`${name} keeps its width of ${is}, but these notes need ${wants}`
    : isFixed
      ? t`${name} is \`fixed\` at ${is}, but these notes need it at ${wants}`
      : t`${name} stays at ${is}, but these notes need it at ${wants}`;
  return { message, advice: isFixed ? t("let it move (without `fixed`)") : t("let the bore change, too") };
}
