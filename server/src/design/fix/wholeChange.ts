/** How long a pipe, or how large a vessel, must be to correct one note. Pure numbers; edits are made elsewhere. */

import { soundingFrequencies } from "../../acoustics/resonance.js";
import { drained, type Steps } from "../../acoustics/steps.js";
import type { Vessel } from "../../acoustics/vesselShape.js";
import type { Body } from "../../instrument/body.js";
import type { Path } from "../../instrument/finding.js";
import { centsAbove } from "../../music/cents.js";
import type { Analysis } from "../predict/analysis.js";
import { grownTube } from "./grownTube.js";
import { secant, secantSteps } from "./solve.js";
import { centsOf } from "./vesselHoleChange.js";

/** The one number of the file that changes. */
export interface WholeChange {
  readonly path: Path;
  readonly kind: "pipe length" | "vessel volume" | "vessel diameter" | "vessel length";
  readonly fingering: number;
  /** Present and new value of the drawing, in the file's own unit. */
  readonly before: number;
  readonly value: number;
}

/** Cents; m; relative. */
const CLOSE_ENOUGH = 0.05;
const TRIAL_STEP = 0.5e-3;
const TRIAL_FACTOR = 1.01;
/** An octave either way and more. */
const LEAST_FACTOR = 0.2;
const GREATEST_FACTOR = 5;

/** The pipe's length or the vessel's size that sounds fingering `index` right; undefined for tubes, and where none does. */
export function* wholeChangeSteps(analysis: Analysis, index: number): Steps<WholeChange | undefined> {
  const change = WHOLE_CHANGES[analysis.instrument.body.kind](analysis, index);
  return change !== undefined && "next" in change ? yield* change : change;
}

type Changing = (analysis: Analysis, index: number) => WholeChange | undefined | Steps<WholeChange | undefined>;

/** A tube's length is solved with its holes (`footPlace`). A pipe is solved in one step. */
const WHOLE_CHANGES: Readonly<Record<Body["kind"], Changing>> = {
  tube: () => undefined,
  pipes: pipeChange,
  vessel: vesselChangeSteps,
};

/** The length of the pipe that sounds fingering `index` right; undefined where none does. */
export function pipeChange({ instrument, air, fingerings }: Analysis, index: number): WholeChange | undefined {
  const pipe = instrument.body.kind === "pipes" ? instrument.body.pipes[index] : undefined;
  const targetHz = fingerings[index]?.targetHz;
  const column = pipe?.column;
  const [rim, stopper] = column?.bore ?? [];
  if (pipe === undefined || column === undefined || targetHz === undefined || !rim || !stopper) return undefined;
  const cents = (length: number) => {
    const changed = { ...column, bore: [rim, { ...stopper, x: length }] };
    const [sounding] = soundingFrequencies(changed, air, [{ covers: [], register: 1 }]);
    return sounding && centsAbove(sounding.frequency, targetHz);
  };
  const length = secant(cents, stopper.x, stopper.x + TRIAL_STEP, {
    least: LEAST_FACTOR * stopper.x,
    greatest: GREATEST_FACTOR * stopper.x,
    tolerance: CLOSE_ENOUGH,
  });
  if (length === undefined) return undefined;
  const { printedUnit } = instrument;
  return {
    path: [...pipe.path, "length"],
    kind: "pipe length",
    fingering: index,
    before: stopper.x / printedUnit,
    value: length / printedUnit,
  };
}

/** The size of the vessel that sounds fingering `index` right; undefined where none does. */
export function vesselChange(analysis: Analysis, index: number): WholeChange | undefined {
  return drained(vesselChangeSteps(analysis, index));
}

/** As `vesselChange`, step by step. */
export function* vesselChangeSteps(analysis: Analysis, index: number): Steps<WholeChange | undefined> {
  const { body } = analysis.instrument;
  const chamber = body.kind === "vessel" ? body.chamber : undefined;
  if (chamber === undefined) return undefined;
  const cents = centsOf(analysis, index);
  const { kind, path, value: before } = chamber.size;
  const changed = (factor: number) => {
    const size = kind === "volume" ? Math.cbrt(factor) : factor;
    if (chamber.kind === "round") return { vessel: sizedVessel(chamber.shape, chamber.sized, size) };
    const grown = grownTube(chamber.column, chamber.mouthAtSide, size, kind === "volume" ? size : 1);
    const end = grown.bore.at(-1)?.x ?? 0;
    // Holes stay where they are: the tube cannot end above the last of them.
    return grown.holes.every(({ x, radius }) => x + radius < end) ? { column: grown } : undefined;
  };
  const factor = yield* secantSteps((value) => cents(changed(value)), 1, TRIAL_FACTOR, {
    least: LEAST_FACTOR,
    greatest: GREATEST_FACTOR,
    tolerance: CLOSE_ENOUGH,
  });
  if (factor === undefined) return undefined;
  return { path, kind: `vessel ${kind}`, fingering: index, before, value: before * factor };
}

function sizedVessel(shape: Vessel, sized: readonly boolean[], size: number): Vessel {
  const [a, b, c] = shape.semiAxes;
  const grown = (axis: number, i: number) => (sized[i] ? axis * size : axis);
  return { ...shape, semiAxes: [grown(a, 0), grown(b, 1), grown(c, 2)] };
}
