/** Which fingering each measured note was played with, or which pipe. */

import type { Cover } from "../../acoustics/column.js";
import { registerSteps } from "../../acoustics/resonance.js";
import type { Steps } from "../../acoustics/steps.js";
import { roundShape, sharedColumn } from "../../instrument/body.js";
import { hasHoles } from "../../instrument/families/bodyTraits.js";
import type { MeasuredNote } from "../../instrument/model.js";
import { ratioOfCents } from "../../music/cents.js";
import type { Analysis } from "../predict/analysis.js";
import type { IndexedQuery } from "../predict/body.js";
import { orNoneSteps } from "../predict/orNone.js";

export interface MeasuredQuery extends IndexedQuery {
  readonly measured: MeasuredNote;
  /** The measured pitch as it would be at an even breath, Hz. */
  readonly evenHz: number;
}

/** This many registers of a fingering that the design does not list are searched for the one that was played. */
const MOST_REGISTERS = 5;
/** A cavity has one register. */
const ONLY_REGISTER = 1;
/** Of a fingering that the design does not list: every fingering has the same body, that of a pan pipe excepted. */
const UNLISTED = -1;

/**
 * The fingering of each measured note: the one drawn with it, else the first of the design for that note; for a pan pipe the first
 * pipe for that note. Undefined where the design has none. Step by step.
 */
export function* measuredQuerySteps(analysis: Analysis): Steps<readonly (MeasuredQuery | undefined)[]> {
  const found: (MeasuredQuery | undefined)[] = [];
  for (const measured of analysis.instrument.measured) {
    yield undefined;
    found.push(yield* querySteps(analysis, measured));
  }
  return found;
}

function* querySteps(analysis: Analysis, measured: MeasuredNote): Steps<MeasuredQuery | undefined> {
  const same = analysis.fingerings
    .map(({ fingering }, index) => ({ ...fingering, index }))
    .filter(({ target, covers }) => target?.midi === measured.note.midi && covers !== undefined);
  const drawn = hasHoles(analysis.instrument.body) ? measured.covers : undefined;
  const listed = drawn === undefined ? same[0] : same.find(({ covers }) => covers?.join() === drawn.join());
  const covers = drawn ?? listed?.covers;
  if (covers === undefined) return undefined;
  const register = listed?.register ?? (yield* nearestRegister(analysis, covers, measured.hz));
  const evenHz = measured.hz / ratioOfCents(listed?.breath ?? 0);
  return register === undefined ? undefined : { measured, evenHz, covers, register, index: listed?.index ?? UNLISTED };
}

function* nearestRegister(
  { air, instrument }: Analysis,
  covers: readonly Cover[],
  hz: number,
): Steps<number | undefined> {
  if (roundShape(instrument.body) !== undefined) return ONLY_REGISTER;
  const column = sharedColumn(instrument.body);
  if (column === undefined) return undefined;
  const found = (yield* orNoneSteps(() => registerSteps(column, air, covers, MOST_REGISTERS))) ?? [];
  const registers = found.map(({ frequency }, i) => ({
    register: i + 1,
    away: Math.abs(Math.log(frequency / hz)),
  }));
  return registers.sort((a, b) => a.away - b.away)[0]?.register;
}
