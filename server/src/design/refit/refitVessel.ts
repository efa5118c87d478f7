/** A vessel brought to its notes by the widths of its holes and the size of its cavity, which keeps its proportions. Wall and mouth stay. */
import type { DesignDocument, DesignFile } from "../../document/designFile.js";
import { roundShape } from "../../instrument/body.js";
import { constraintsOf } from "../constraints/constraints.js";
import { type NewNumber, NumberWriter } from "../edit/numberWriter.js";
import type { AnalyseOptions } from "../predict/analyse.js";
import type { Analysis } from "../predict/analysis.js";
import { orNone } from "../predict/orNone.js";
import type { Prospect } from "../rekey/nearestKey.js";
import { drawnDecimals, toDrawn } from "../wording.js";
import type { LeastSquaresSolution } from "./constrainedLeastSquares.js";
import { type DrawnCavity, drawnCavities } from "./drawnCavity.js";
import { GOOD_DRAWN, HOPELESS, IN_TUNE, largest, refusal, unlessImpossible } from "./inTune.js";
import { residualsAt } from "./linear.js";
import { drawingTooCoarse } from "./obstacles.js";
import { keeps } from "./quadraticStep.js";
import { presentCents, type Refit, type RefitTargets } from "./refit.js";
import { roundTogether } from "./rounding.js";
import { roundOneByOne } from "./roundOneByOne.js";
import { fitFrom, withMinimax } from "./vesselFit.js";
import { vesselObstacles } from "./vesselObstacles.js";
import { VesselTuner } from "./vesselTuner.js";

/** Of a drill's diameter as it is written. */
const DRILL_DECIMALS = 4;
/** Of what is only worked with. */
const FINE_DECIMALS = 6;
/** A hole drawn at its limit must not look as if it were beyond, mm. */
const PINNED = 1e-6;

/** @throws CannotRekey where limits contradict each other or notes cannot be reached; Cancelled */
export function refitVessel(
  file: DesignFile,
  document: DesignDocument,
  analysis: Analysis,
  goal: RefitTargets,
  options: AnalyseOptions = {},
): Refit {
  try {
    const checked = new VesselTuner(document, analysis, goal.targets, options);
    const present = [1, ...checked.radii];
    const keptLimits = checked.limits.every(({ row, least }) => keeps({ row, least: least - PINNED }, present));
    // What is right already stays unchanged to the letter: the same refit again changes nothing.
    if (keptLimits && largest(presentCents(analysis, goal.targets, checked.tunable)) <= IN_TUNE)
      return { edits: [], moves: [], isInTune: true, obstacles: () => [], keptLimits };
    const { tuner: first, solved } = solvedOnGround(checked, goal);
    const writer = new NumberWriter(file, document);
    // With its size held, the cavity stays as it is written.
    const cavity = goal.freedom === "all" ? bestCavity(document, first, solved.x) : undefined;
    if (cavity !== undefined) writer.writeAll(cavity.values, cavity.decimals);
    // The holes are solved again for the cavity as drawn, and their roundings chosen so that they cancel in the notes.
    const between = inBetween(file, document, cavity, first.holeSizes(solved.x));
    const instrument = between.resolution.instrument;
    const given = roundShape(analysis.instrument.body);
    const drawn = new VesselTuner(between, { ...analysis, instrument }, goal.targets, options, {
      ground: first.ground,
      given,
    });
    const exact = withMinimax(drawn, solve(drawn, undefined, solved.x.slice(1)), true);
    const x = roundTogether(drawn, exact.x, drawn.steps, drawn.limits, GOOD_DRAWN, options.shouldStop);
    const isDrilled = constraintsOf(document).drills !== undefined;
    const holes = drawn.holeSizes(x).map(({ path, value }) => ({
      path,
      value: isDrilled ? value : toDrawn(value, instrument),
    }));
    writer.writeAll(holes, isDrilled ? DRILL_DECIMALS : drawnDecimals(instrument));
    const cents = drawn.at(x)?.cents ?? [];
    const obstacles = () => {
      if (largest(cents) <= IN_TUNE) return [];
      if (largest(solved.residuals) > IN_TUNE)
        return vesselObstacles({ tuner: first, solved, document, analysis, goal });
      return [drawingTooCoarse(analysis, drawn.tunable, cents, IN_TUNE, isDrilled)];
    };
    const isInTune = largest(cents) <= IN_TUNE;
    return { edits: writer.edits, moves: writer.moves, isInTune, obstacles, keptLimits };
  } catch (error) {
    throw refusal(error, "chamber");
  }
}

interface OnGround {
  readonly tuner: VesselTuner;
  readonly solved: LeastSquaresSolution;
}

/** Within what the prediction was checked for; beyond it where that brings the worst note noticeably nearer. */
function solvedOnGround(checked: VesselTuner, { freedom, factor }: RefitTargets): OnGround {
  const isHeld = freedom !== "all";
  const size = isHeld ? undefined : factor;
  const solved = withMinimax(checked, solve(checked, size), isHeld);
  const within = { tuner: checked, solved };
  const worst = largest(solved.residuals);
  const { beyond } = checked;
  if (worst <= IN_TUNE || beyond === undefined) return within;
  const wider = withMinimax(beyond, fitFrom(beyond, size, solved.x), isHeld);
  return worst - largest(wider.residuals) > WORTH_LEAVING ? { tuner: beyond, solved: wider } : within;
}

/** The worst note must improve by this much for the checked range to be left. Cents. */
const WORTH_LEAVING = 1;

/** The cavity as it will be drawn with holes as solved: those of the old size may not find room in it. */
function inBetween(
  file: DesignFile,
  document: DesignDocument,
  cavity: DrawnCavity | undefined,
  holes: readonly NewNumber[],
): DesignDocument {
  const writer = new NumberWriter(file, document);
  if (cavity !== undefined) writer.writeAll(cavity.values, cavity.decimals);
  writer.writeAll(holes, FINE_DECIMALS);
  return writer.document;
}

/** Whether every note comes within the design's tolerance in the drawing's own limits, rounding left aside. @throws Cancelled */
export function vesselRefitProspect(
  document: DesignDocument,
  analysis: Analysis,
  goal: RefitTargets,
  options: AnalyseOptions = {},
): Prospect {
  return unlessImpossible(() => {
    const tuner = new VesselTuner(document, analysis, goal.targets, options);
    const left = largest(solvedOnGround(tuner, goal).solved.residuals);
    const { tolerance } = analysis;
    return left <= tolerance ? "can" : left <= tolerance + HOPELESS ? "cannot" : "hopeless";
  });
}

/** The best of the fits from several starts, of which only the one that comes nearest in a few steps is followed to its end. */
function solve(tuner: VesselTuner, factor: number | undefined, radii: readonly number[] = tuner.radii) {
  if (factor === undefined) return fitFrom(tuner, factor, [1, ...radii]);
  let best = fitFrom(tuner, factor, [factor, ...radii], { mostSteps: LEADING_STEPS });
  const cents = tuner.at([factor, ...radii])?.cents;
  // Once nothing improves much, no other start is needed: widths and size have one optimum.
  const begun = cents?.reduce((sum, value) => sum + value * value, 0) ?? Number.POSITIVE_INFINITY;
  if (best.cost > STILL * begun) return fitFrom(tuner, factor, best.x);
  const sized = cents === undefined ? factor : factor * meanRatio(cents) ** (1 / SIZE_POWER);
  for (const [size, growth] of [
    [factor, factor],
    [sized, 1],
    [sized, sized],
  ] as const) {
    if (largest(best.residuals) <= IN_TUNE) return best;
    const start = [size, ...radii.map((radius) => radius * growth)];
    const other = orNone(() => fitFrom(tuner, factor, start, { mostSteps: LEADING_STEPS }));
    if (other !== undefined && other.cost < best.cost) best = other;
  }
  return fitFrom(tuner, factor, best.x);
}

/** Trial steps by which starts are told apart. */
const LEADING_STEPS = 6;

/** Share of its first cost that a fit keeps which began near its end. */
const STILL = 0.9;

/** By what frequencies are too high, in the mean. */
function meanRatio(cents: readonly number[]): number {
  return 2 ** (cents.reduce((sum, value) => sum + value, 0) / cents.length / 1200);
}

/** A vessel's notes fall by this power of its size with mouth and holes as they are: f² goes by 1/V. */
const SIZE_POWER = 1.5;

/**
 * The cavity, drawn, whose holes will draw best: all notes go up or down with it a little, and with them where the steps of the
 * holes' widths fall. By slopes alone.
 */
function bestCavity(document: DesignDocument, tuner: VesselTuner, x: readonly number[]): DrawnCavity {
  const [size = 1, ...radii] = x;
  const cavity = drawnCavities(document, size);
  const [nearest] = cavity;
  if (nearest === undefined) return { values: [], decimals: 0, size };
  const notes = tuner.at(x);
  if (notes === undefined || radii.length === 0) return nearest;
  const slopes = tuner.slopes(notes);
  const own = slopes.map((row) => row.slice(1));
  const worstWith = (cavity: DrawnCavity): number => {
    const cents = notes.cents.map((value, note) => value + (cavity.size - size) * (slopes[note]?.[0] ?? 0));
    if (largest(cents) - largest(notes.cents) > GOOD_DRAWN) return Number.POSITIVE_INFINITY;
    const limits = tuner.limits.map(({ row, least }) => ({
      row: new Map([...row].flatMap(([i, factor]) => (i === 0 ? [] : [[i - 1, factor] as const]))),
      least: least - (row.get(0) ?? 0) * cavity.size,
    }));
    const rounded = roundOneByOne(radii, cents, own, tuner.steps.slice(1), limits, "worst");
    return rounded === undefined ? Number.POSITIVE_INFINITY : largest(residualsAt(cents, own, radii, rounded));
  };
  const judged = cavity.map((cavity) => ({ cavity, worst: worstWith(cavity) }));
  return judged.reduce((best, each) => (each.worst < best.worst ? each : best)).cavity;
}
