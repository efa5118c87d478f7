/** By how much an instrument must grow as a whole for a change of pitch, losses reckoned with. */
import { isDescribed } from "../../instrument/described.js";
import { centsAbove, ratioOfCents } from "../../music/cents.js";
import type { Analysis } from "../predict/analysis.js";
import { scaledBody, soundingsOf } from "../predict/body.js";
import { orNone } from "../predict/orNone.js";
import { tunableNotesOf } from "../predict/tunableNotes.js";

/** Cents within which the size is right. */
const CLOSE_ENOUGH = 0.01;
const ROUNDS = 8;

/**
 * The factor on every printed dimension by which all notes, on average, come to sound `ratio` times lower than their present
 * targets. The printer's undersize of holes does not grow along; that is the difference to a rekey by print scale, which has
 * the last word.
 */
export function sizeFactor(analysis: Analysis, ratio: number): number {
  if (!isDescribed(analysis.instrument)) return ratio;
  const targets = analysis.fingerings.map(({ targetHz }) => targetHz && targetHz / ratio);
  const tunable = tunableNotesOf(analysis, targets);
  const queries = tunable.map(({ query }) => query);
  let factor = ratio * ratioOfCents(analysis.summary?.meanCents ?? 0);
  for (let round = 0; round < ROUNDS; round++) {
    const found = orNone(() => soundingsOf(scaledBody(analysis.instrument, factor), analysis.air, queries));
    if (found === undefined) break;
    const cents = found.flatMap((sounding, i) =>
      sounding === undefined ? [] : centsAbove(sounding.frequency, tunable[i]?.target ?? sounding.frequency),
    );
    const mean = cents.reduce((sum, each) => sum + each, 0) / cents.length;
    if (!(Math.abs(mean) > CLOSE_ENOUGH)) break;
    factor *= ratioOfCents(mean);
  }
  return factor;
}
