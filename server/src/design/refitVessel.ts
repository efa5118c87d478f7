/** A vessel brought to its notes by the widths of its holes and the size of its hollow, which keeps its proportions. Wall and mouth stay. */
import type { DesignDocument, DesignFile } from "../document/designFile.js";
import { numberAt } from "../document/designNumbers.js";
import type { Path } from "../instrument/finding.js";
import type { AnalyseOptions } from "./analyse.js";
import type { Analysis } from "./analysis.js";
import type { Prospect } from "./nearestKey.js";
import { NumberWriter } from "./numberWriter.js";
import { constrainedLeastSquares } from "./refit/constrainedLeastSquares.js";
import { GOOD_DRAWN, HOPELESS, IN_TUNE, largest, refusal, unlessImpossible } from "./refit/inTune.js";
import type { Refit, RefitTargets } from "./refit/refit.js";
import { roundTogether } from "./refit/rounding.js";
import { VesselTuner } from "./refit/vesselTuner.js";
import { volumeDecimals } from "./remedy.js";
import { drawnDecimals } from "./wording.js";

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
    const decimals = drawnDecimals(analysis.instrument);
    // What is as drawn, to the step of a drawing, is left as it is written.
    const write = (path: Path, value: number, digits: number) => {
      const present = numberAt(writer.document, path)?.value ?? Number.NaN;
      if (present.toFixed(digits) !== value.toFixed(digits)) writer.write(path, value, digits);
    };
    for (const [path, value] of sizes(document, solved.x[0] ?? 1))
      write(path, value, path[1] === "volume" ? volumeDecimals(value) : decimals);
    // The holes are solved anew for the hollow as it is drawn, and their roundings chosen so that they cancel in the notes.
    const instrument = writer.document.resolution.instrument;
    const drawn = new VesselTuner(writer.document, { ...analysis, instrument }, wish.targets, options);
    const exact = solve(drawn, undefined, solved.x.slice(1));
    const x = roundTogether(drawn, exact.x, drawn.steps, drawn.limits, GOOD_DRAWN, options.shouldStop);
    for (const [path, value] of drawn.holeSizes(x)) write(path, value, decimals);
    const obstacles = largest(solved.residuals) <= IN_TUNE ? [] : first.obstacles(solved.x, solved.multipliers);
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

/** The numbers that make the hollow larger, as drawn: its volume where that is stated, else its dimensions. */
function sizes(document: DesignDocument, factor: number): readonly (readonly [Path, number])[] {
  const volume: Path = ["vessel", "volume"];
  const stated = numberAt(document, volume);
  if (stated !== undefined) return [[volume, stated.value * factor ** 3]];
  return ["length", "width", "height", "diameter"].flatMap((name): readonly (readonly [Path, number])[] => {
    const path = ["vessel", name];
    const number = numberAt(document, path);
    return number === undefined ? [] : [[path, number.value * factor]];
  });
}
