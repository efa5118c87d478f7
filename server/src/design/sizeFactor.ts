/** By how much an instrument must grow as a whole for a change of pitch, losses reckoned with. */

import type { Column } from "../acoustics/column.js";
import { soundingFrequencies } from "../acoustics/resonance.js";
import { centsAbove, ratioOfCents } from "../music/cents.js";
import type { Analysis } from "./analysis.js";

/** Cents within which the size is right. */
const CLOSE_ENOUGH = 0.01;
const ROUNDS = 8;

/**
 * The factor on every printed dimension by which all notes, on average, come to sound `ratio` times lower than their present
 * targets. The printer's undersize of holes does not grow along; that is the difference to a rekey by print scale, which has
 * the last word.
 */
export function sizeFactor(analysis: Analysis, ratio: number): number {
  const { column } = analysis.instrument;
  if (column === undefined) return ratio;
  const counting = analysis.fingerings.flatMap(({ fingering: { covers, register }, targetHz, predictedHz }) =>
    covers === undefined || targetHz === undefined || predictedHz === undefined
      ? []
      : [{ query: { covers, register }, target: targetHz / ratio }],
  );
  const queries = counting.map(({ query }) => query);
  let factor = ratio * ratioOfCents(analysis.summary?.meanCents ?? 0);
  for (let round = 0; round < ROUNDS; round++) {
    const found = soundingFrequencies(grown(column, factor), analysis.air, queries);
    const cents = found.flatMap((sounding, i) =>
      sounding === undefined ? [] : centsAbove(sounding.frequency, counting[i]?.target ?? sounding.frequency),
    );
    const mean = cents.reduce((sum, each) => sum + each, 0) / cents.length;
    if (!(Math.abs(mean) > CLOSE_ENOUGH)) break;
    factor *= ratioOfCents(mean);
  }
  return factor;
}

/** The column with every dimension multiplied. */
export function grown(column: Column, factor: number): Column {
  return {
    ...column,
    wall: column.wall * factor,
    bore: column.bore.map(({ x, radius }) => ({ x: x * factor, radius: radius * factor })),
    holes: column.holes.map((hole) => ({
      ...hole,
      x: hole.x * factor,
      radius: hole.radius * factor,
      chimney: hole.chimney * factor,
    })),
    mouth: grownMouth(column.mouth, factor),
  };
}

/** Every length of a mouth grows; the share a lip covers does not. */
function grownMouth<M extends Column["mouth"]>(mouth: M, factor: number): M {
  const entries = Object.entries(mouth).map(([name, value]) => [
    name,
    typeof value === "number" && name !== "cover" ? value * factor : value,
  ]);
  return Object.fromEntries(entries) as M;
}
