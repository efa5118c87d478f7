/** One print with its measured notes: the drawing that it was made by, and how far the notes lie from what a trial of it sounds. */
import { airState } from "../../acoustics/air.js";
import { soundingOf } from "../../acoustics/answer.js";
import { mouthEnd } from "../../acoustics/mouth.js";
import type { Steps } from "../../acoustics/steps.js";
import { columnsOf } from "../../instrument/body.js";
import type { Path } from "../../instrument/finding.js";
import { centsAbove } from "../../music/cents.js";
import type { Analysis } from "../predict/analysis.js";
import { bodySteps } from "../predict/body.js";
import { orNoneSteps } from "../predict/orNone.js";
import { type MeasuredQuery, measuredQuerySteps } from "./measuredQueries.js";
import type { Trial } from "./unknowns.js";

/** A note the trial instrument does not have: far from any note, so that the solver turns back. Cents. */
export const NO_NOTE = 1e4;

export interface MeasuredPrint {
  readonly analysis: Analysis;
  /** As drawn. */
  readonly start: Trial;
  readonly queries: readonly MeasuredQuery[];
  /** Measured notes that the design has no fingering or pipe for, or that it does not sound. */
  readonly unused: readonly Path[];
}

export function* measuredPrintSteps(analysis: Analysis): Steps<MeasuredPrint> {
  const all = yield* measuredQuerySteps(analysis);
  const start = { body: analysis.instrument.body, temperature: analysis.temperature };
  const known = all.filter((query) => query !== undefined);
  const sounds = yield* predictions(analysis, known, start);
  const queries = known.filter((_, i) => sounds[i] !== undefined);
  const used = new Set(queries.map(({ measured }) => measured));
  const unused = analysis.instrument.measured.filter((note) => !used.has(note)).map(({ path }) => path);
  return { analysis, start, queries, unused };
}

/** Cents by which each measured note lies above the trial's; undefined where the trial is not an instrument. */
export function residualsOf({ analysis, queries }: MeasuredPrint, trial: Trial): Steps<readonly number[] | undefined> {
  return orNoneSteps(function* () {
    // A pipe that nobody measured must have a mouth left, too.
    for (const column of columnsOf(trial.body)) mouthEnd(column);
    const sounds = yield* predictions(analysis, queries, trial);
    return sounds.map((hz, i) => (hz === undefined ? NO_NOTE : centsAbove((queries[i] as MeasuredQuery).evenHz, hz)));
  });
}

/** Hz of each measured note in a trial instrument, each in its own air. */
function* predictions(
  { instrument }: Analysis,
  queries: readonly MeasuredQuery[],
  { body, temperature }: Trial,
): Steps<readonly (number | undefined)[]> {
  const found: (number | undefined)[] = queries.map(() => undefined);
  const degrees = queries.map(({ measured }) => measured.temperature ?? temperature);
  for (const degree of new Set(degrees)) {
    const own = queries.map((_, i) => i).filter((i) => degrees[i] === degree);
    const air = airState({ ...instrument.air, temperature: degree });
    const answers = yield* bodySteps(
      body,
      air,
      own.map((i) => queries[i] as MeasuredQuery),
    );
    own.forEach((i, n) => {
      const answer = answers[n];
      found[i] = answer && soundingOf(answer)?.frequency;
    });
  }
  return found;
}
