/** A vessel brought to its notes by the widths of its holes and the size of its cavity, which keeps its proportions. Wall and mouth stay. */
import type { DesignDocument, DesignFile } from "../../document/designFile.js";
import { numberAt } from "../../document/designNumbers.js";
import type { Path } from "../../instrument/finding.js";
import { constraintsOf } from "../constraints/constraints.js";
import { NumberWriter } from "../edit/numberWriter.js";
import type { AnalyseOptions } from "../predict/analyse.js";
import type { Analysis } from "../predict/analysis.js";
import type { Prospect } from "../rekey/nearestKey.js";
import { drawnDecimals, toDrawn } from "../wording.js";
import { constrainedLeastSquares, type LeastSquaresSolution } from "./constrainedLeastSquares.js";
import { type DrawnCavity, drawnCavitys } from "./drawnCavity.js";
import { GOOD_DRAWN, HOPELESS, IN_TUNE, largest, refusal, unlessImpossible } from "./inTune.js";
import { residualsAt } from "./linear.js";
import type { Obstacle } from "./obstacle.js";
import { contradiction, drawingTooCoarse } from "./obstacles.js";
import { keeps } from "./quadraticStep.js";
import { presentCents, type Refit, type RefitTargets } from "./refit.js";
import { roundTogether } from "./rounding.js";
import { roundOneByOne } from "./roundOneByOne.js";
import { VesselTuner } from "./vesselTuner.js";

const MOST_STEPS = 25;
/** Of a drill's diameter as it is written. */
const DRILL_DECIMALS = 4;
/** Of what is only worked with. */
const FINE_DECIMALS = 6;
/** A hole drawn at its limit must not look as if it were beyond, mm. */
const PINNED = 1e-6;

/** @throws CannotRekey where limits contradict each other or notes cannot be had; Cancelled */
export function refitVessel(
  file: DesignFile,
  document: DesignDocument,
  analysis: Analysis,
  wish: RefitTargets,
  options: AnalyseOptions = {},
): Refit {
  try {
    const first = new VesselTuner(document, analysis, wish.targets, options);
    const present = [1, ...first.radii];
    const keptLimits = first.limits.every(({ row, least }) => keeps({ row, least: least - PINNED }, present));
    // What is right already stays to the letter: the same refit again changes nothing.
    if (keptLimits && largest(presentCents(analysis, wish.targets, first.tunable)) <= IN_TUNE)
      return { edits: [], moves: [], isInTune: true, obstacles: () => [], keptLimits };
    const solved = solve(first, wish.freedom === "all" ? wish.factor : undefined);
    const writer = new NumberWriter(file, document);
    // What is as drawn, to the step of a drawing, is left as it is written.
    const write = (path: Path, value: number, decimals: number) => {
      const present = numberAt(writer.document, path)?.value ?? Number.NaN;
      if (present.toFixed(decimals) !== value.toFixed(decimals)) writer.write(path, value, decimals);
    };
    // With its size held, the cavity stays as it is written.
    const cavity = wish.freedom === "all" ? bestCavity(document, first, solved.x).values : [];
    for (const { path, value, decimals } of cavity) write(path, value, decimals);
    // The holes are solved anew for the cavity as it is drawn, and their roundings chosen so that they cancel in the notes.
    const between = inBetween(file, document, cavity, first.holeSizes(solved.x));
    const instrument = between.resolution.instrument;
    const drawn = new VesselTuner(between, { ...analysis, instrument }, wish.targets, options);
    const exact = solve(drawn, undefined, solved.x.slice(1));
    const x = roundTogether(drawn, exact.x, drawn.steps, drawn.limits, GOOD_DRAWN, options.shouldStop);
    const isDrilled = constraintsOf(document).drills !== undefined;
    for (const [path, value] of drawn.holeSizes(x))
      if (isDrilled) write(path, value, DRILL_DECIMALS);
      else write(path, toDrawn(value, instrument), drawnDecimals(instrument));
    const cents = drawn.at(x)?.cents ?? [];
    const obstacles = () => {
      if (largest(cents) <= IN_TUNE) return [];
      if (largest(solved.residuals) > IN_TUNE) return inTheWay(first, solved, analysis);
      return [drawingTooCoarse(analysis, drawn.tunable, cents, IN_TUNE)];
    };
    const isInTune = largest(cents) <= IN_TUNE;
    return { edits: writer.edits, moves: writer.moves, isInTune, obstacles, keptLimits };
  } catch (error) {
    throw refusal(error, "chamber");
  }
}

/** The cavity as it will be drawn with holes as solved: those of the old size may not find room in it. */
function inBetween(
  file: DesignFile,
  document: DesignDocument,
  cavity: DrawnCavity["values"],
  holes: readonly (readonly [Path, number])[],
): DesignDocument {
  const writer = new NumberWriter(file, document);
  for (const { path, value, decimals } of cavity) writer.write(path, value, decimals);
  for (const [path, value] of holes) writer.write(path, value, FINE_DECIMALS);
  return writer.document;
}

/** The limits that bind, or the notes that no size of holes and cavity brings together. */
function inTheWay(
  tuner: VesselTuner,
  { x, multipliers, residuals }: Pick<LeastSquaresSolution, "x" | "multipliers" | "residuals">,
  analysis: Analysis,
): readonly Obstacle[] {
  const binding = tuner.obstacles(x, multipliers);
  return binding.length > 0 ? binding : [contradiction(analysis, tuner.tunable, residuals, IN_TUNE)];
}

/** Whether every note comes within the design's tolerance in the drawing's own limits, rounding left aside. @throws Cancelled */
export function vesselRefitProspect(
  document: DesignDocument,
  analysis: Analysis,
  wish: RefitTargets,
  options: AnalyseOptions = {},
): Prospect {
  return unlessImpossible(() => {
    const tuner = new VesselTuner(document, analysis, wish.targets, options);
    const left = largest(solve(tuner, wish.freedom === "all" ? wish.factor : undefined).residuals);
    const { tolerance } = analysis;
    return left <= tolerance ? "can" : left <= tolerance + HOPELESS ? "cannot" : "hopeless";
  });
}

/** Size (1 is as drawn) and radii, mm; the size held where there is no factor to grow by. The better of two starts. */
function solve(tuner: VesselTuner, factor: number | undefined, radii: readonly number[] = tuner.radii) {
  const pinned = factor === undefined ? tuner.sizeHeld : [];
  const from = (holes: readonly number[]) =>
    constrainedLeastSquares({
      start: [factor ?? 1, ...holes],
      evaluate: (x) => {
        const notes = tuner.at(x);
        return notes && { residuals: notes.cents, jacobian: () => tuner.slopes(notes) };
      },
      wish: tuner.wish(factor ?? 1),
      inequalities: [...tuner.limits, ...pinned],
      mostSteps: MOST_STEPS,
    });
  const plain = from(radii);
  if (factor === undefined || largest(plain.residuals) <= IN_TUNE) return plain;
  const grown = from(radii.map((radius) => radius * factor));
  return grown.cost < plain.cost ? grown : plain;
}

/**
 * The cavity, drawn, whose holes will draw best: all notes go up or down with it a little, and with them where the steps of the
 * holes' widths fall. By slopes alone.
 */
function bestCavity(document: DesignDocument, tuner: VesselTuner, x: readonly number[]): DrawnCavity {
  const [size = 1, ...radii] = x;
  const cavity = drawnCavitys(document, size);
  const [nearest] = cavity;
  if (nearest === undefined) return { values: [], size };
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
