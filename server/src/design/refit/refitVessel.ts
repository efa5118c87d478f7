/** A vessel brought to its notes by the widths of its holes and the size of its hollow, which keeps its proportions. Wall and mouth stay. */
import type { DesignDocument, DesignFile } from "../../document/designFile.js";
import { numberAt } from "../../document/designNumbers.js";
import type { Path } from "../../instrument/finding.js";
import { NumberWriter } from "../edit/numberWriter.js";
import type { AnalyseOptions } from "../predict/analyse.js";
import type { Analysis } from "../predict/analysis.js";
import type { Prospect } from "../rekey/nearestKey.js";
import { drawnDecimals, toDrawn } from "../wording.js";
import { constrainedLeastSquares } from "./constrainedLeastSquares.js";
import { type DrawnHollow, drawnHollows } from "./drawnHollow.js";
import { GOOD_DRAWN, HOPELESS, IN_TUNE, largest, refusal, unlessImpossible } from "./inTune.js";
import { residualsAt } from "./linear.js";
import { drawingTooCoarse } from "./obstacles.js";
import type { Refit, RefitTargets } from "./refit.js";
import { roundTogether } from "./rounding.js";
import { roundOneByOne } from "./roundOneByOne.js";
import { VesselTuner } from "./vesselTuner.js";

const MOST_STEPS = 25;

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
    const solved = solve(first, wish.freedom === "all" ? wish.factor : undefined);
    const writer = new NumberWriter(file, document);
    // What is as drawn, to the step of a drawing, is left as it is written.
    const write = (path: Path, value: number, decimals: number) => {
      const present = numberAt(writer.document, path)?.value ?? Number.NaN;
      if (present.toFixed(decimals) !== value.toFixed(decimals)) writer.write(path, value, decimals);
    };
    for (const { path, value, decimals } of bestHollow(document, first, solved.x).values) write(path, value, decimals);
    // The holes are solved anew for the hollow as it is drawn, and their roundings chosen so that they cancel in the notes.
    const instrument = writer.document.resolution.instrument;
    const drawn = new VesselTuner(writer.document, { ...analysis, instrument }, wish.targets, options);
    const exact = solve(drawn, undefined, solved.x.slice(1));
    const x = roundTogether(drawn, exact.x, drawn.steps, drawn.limits, GOOD_DRAWN, options.shouldStop);
    for (const [path, value] of drawn.holeSizes(x)) write(path, toDrawn(value, instrument), drawnDecimals(instrument));
    const cents = drawn.at(x)?.cents ?? [];
    const obstacles =
      largest(solved.residuals) > IN_TUNE
        ? first.obstacles(solved.x, solved.multipliers)
        : largest(cents) > IN_TUNE
          ? [drawingTooCoarse(analysis, drawn.counting, cents, IN_TUNE)]
          : [];
    return { edits: writer.edits, moves: writer.moves, obstacles };
  } catch (error) {
    throw refusal(error, "hollow");
  }
}

/** Whether every note comes within reach in the drawing's own limits, rounding left aside. @throws Cancelled */
export function vesselRefitProspect(
  document: DesignDocument,
  analysis: Analysis,
  wish: RefitTargets,
  options: AnalyseOptions = {},
): Prospect {
  return unlessImpossible(() => {
    const tuner = new VesselTuner(document, analysis, wish.targets, options);
    const left = largest(solve(tuner, wish.freedom === "all" ? wish.factor : undefined).residuals);
    return left <= IN_TUNE ? "can" : left <= HOPELESS ? "cannot" : "hopeless";
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
 * The hollow, drawn, whose holes will draw best: all notes go up or down with it a little, and with them where the steps of the
 * holes' widths fall. By slopes alone.
 */
function bestHollow(document: DesignDocument, tuner: VesselTuner, x: readonly number[]): DrawnHollow {
  const [size = 1, ...radii] = x;
  const hollows = drawnHollows(document, size);
  const [nearest] = hollows;
  if (nearest === undefined) return { values: [], size };
  const notes = tuner.at(x);
  if (notes === undefined || radii.length === 0) return nearest;
  const slopes = tuner.slopes(notes);
  const own = slopes.map((row) => row.slice(1));
  const worstWith = (hollow: DrawnHollow): number => {
    const cents = notes.cents.map((value, note) => value + (hollow.size - size) * (slopes[note]?.[0] ?? 0));
    if (largest(cents) - largest(notes.cents) > GOOD_DRAWN) return Number.POSITIVE_INFINITY;
    const limits = tuner.limits.map(({ row, least }) => ({
      row: new Map([...row].flatMap(([i, factor]) => (i === 0 ? [] : [[i - 1, factor] as const]))),
      least: least - (row.get(0) ?? 0) * hollow.size,
    }));
    const rounded = roundOneByOne(radii, cents, own, tuner.steps.slice(1), limits, "worst");
    return rounded === undefined ? Number.POSITIVE_INFINITY : largest(residualsAt(cents, own, radii, rounded));
  };
  const judged = hollows.map((hollow) => ({ hollow, worst: worstWith(hollow) }));
  return judged.reduce((best, each) => (each.worst < best.worst ? each : best)).hollow;
}
