/** A vessel brought to its notes by the widths of its holes and the size of its hollow, which keeps its proportions. Wall and mouth stay. */
import type { DesignDocument, DesignFile } from "../document/designFile.js";
import { numberAt } from "../document/designNumbers.js";
import { applyEdits } from "../document/edits.js";
import { editsBetween } from "../document/editsBetween.js";
import { readDesign } from "../document/read.js";
import type { Path } from "../instrument/finding.js";
import type { AnalyseOptions } from "./analyse.js";
import type { Analysis } from "./analysis.js";
import { changeNumber } from "./numberEdit.js";
import { constrainedLeastSquares, Infeasible } from "./refit/constrainedLeastSquares.js";
import type { Move, Refit } from "./refit/refit.js";
import { roundTogether } from "./refit/rounding.js";
import { VesselTuner } from "./refit/vesselTuner.js";
import { CannotRekey } from "./rekeyResult.js";
import { volumeDecimals } from "./remedy.js";
import { drawnDecimals } from "./wording.js";

/** As for tubes: beyond it what is in the way is named; within it drawn dimensions are good. Cents. */
const IN_TUNE = 2;
const GOOD_DRAWN = 1.5;
const MOST_STEPS = 25;

export interface VesselWish {
  readonly targets: readonly (number | undefined)[];
  /** How much longer the hollow would be if everything grew alike. */
  readonly factor: number;
  readonly freedom: "all" | "holes";
}

/** @throws CannotRekey where limits contradict each other or notes cannot be had; Cancelled */
export function refitVessel(
  file: DesignFile,
  document: DesignDocument,
  analysis: Analysis,
  wish: VesselWish,
  options: AnalyseOptions = {},
): Refit {
  try {
    const first = new VesselTuner(document, analysis, wish.targets, options);
    const solved = solve(first, wish.freedom === "all" ? wish.factor : undefined);
    const writer = new Writer(file, document);
    writer.write(sizes(document, solved.x[0] ?? 1), analysis);
    // The holes are solved anew for the hollow as it is drawn, and their roundings chosen so that they cancel in the notes.
    const instrument = writer.document.resolution.instrument;
    const drawn = new VesselTuner(writer.document, { ...analysis, instrument }, wish.targets, options);
    const exact = solve(drawn, undefined, solved.x.slice(1));
    const x = roundTogether(drawn, exact.x, drawn.steps, drawn.limits, GOOD_DRAWN, options.shouldStop);
    writer.write(drawn.holeSizes(x), analysis);
    const obstacles = worstOf(solved.residuals) <= IN_TUNE ? [] : first.obstacles(solved.x, solved.multipliers);
    return { edits: editsBetween(document, writer.document), moves: writer.moves, obstacles };
  } catch (error) {
    if (error instanceof Infeasible)
      throw new CannotRekey("hands, print and the hollow contradict each other: relax `hands` or the `limits`");
    if (error instanceof RangeError)
      throw new CannotRekey(
        "no size of this hollow and these holes sounds all the notes: take a key nearer to its own",
      );
    throw error;
  }
}

/** Whether every note comes within reach in the drawing's own limits, rounding left aside. @throws Cancelled */
export function vesselCanBeRefitted(
  document: DesignDocument,
  analysis: Analysis,
  wish: VesselWish,
  options: AnalyseOptions = {},
): boolean {
  try {
    const tuner = new VesselTuner(document, analysis, wish.targets, options);
    return worstOf(solve(tuner, wish.freedom === "all" ? wish.factor : undefined).residuals) <= IN_TUNE;
  } catch (error) {
    if (error instanceof Infeasible || error instanceof RangeError) return false;
    throw error;
  }
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
  if (factor === undefined || worstOf(plain.residuals) <= IN_TUNE) return plain;
  const grown = from(radii.map((radius) => radius * factor));
  return grown.cost < plain.cost ? grown : plain;
}

function worstOf(cents: readonly number[]): number {
  return Math.max(0, ...cents.map(Math.abs));
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

/** The design as it becomes; a number that others refer to is written first. */
class Writer {
  readonly moves: Move[] = [];

  constructor(
    private readonly file: DesignFile,
    public document: DesignDocument,
  ) {}

  write(values: readonly (readonly [Path, number])[], { instrument }: Analysis): void {
    for (const [path, value] of values) {
      const before = numberAt(this.document, path)?.value;
      if (before === undefined) continue;
      const decimals = path[1] === "volume" ? volumeDecimals(value) : drawnDecimals(instrument);
      const to = Number(value.toFixed(decimals));
      if (Number(before.toFixed(decimals)) === to) continue;
      this.moves.push({ path, from: before, to });
      const text = applyEdits(this.document.text, changeNumber(this.document, path, value, decimals));
      this.document = readDesign(text, this.file.syntax).documents[this.document.index] ?? this.document;
    }
  }
}
