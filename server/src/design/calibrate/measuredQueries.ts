/** Which fingering each measured note was played with. */

import type { Column, Cover } from "../../acoustics/column.js";
import { registersOf } from "../../acoustics/resonance.js";
import type { MeasuredNote } from "../../instrument/model.js";
import type { Analysis } from "../analysis.js";

export interface MeasuredQuery {
  readonly measured: MeasuredNote;
  readonly covers: readonly Cover[];
  readonly register: number;
}

/** So many registers of a fingering that the design does not list are looked through for the one that was played. */
const MOST_REGISTERS = 5;

/**
 * The fingering of each measured note: the one drawn with it, else the first of the design for that note. Undefined where the
 * design has none.
 */
export function measuredQueries(analysis: Analysis, column: Column): readonly (MeasuredQuery | undefined)[] {
  return analysis.instrument.measured.map((measured) => {
    const same = analysis.fingerings.filter(
      ({ fingering: { target, covers } }) => target?.midi === measured.note.midi && covers !== undefined,
    );
    const drawn = measured.covers;
    const listed =
      drawn === undefined ? same[0] : same.find(({ fingering }) => fingering.covers?.join() === drawn.join());
    const covers = drawn ?? listed?.fingering.covers;
    if (covers === undefined) return undefined;
    const register = listed?.fingering.register ?? nearestRegister(analysis, column, covers, measured.hz);
    return register === undefined ? undefined : { measured, covers, register };
  });
}

function nearestRegister({ air }: Analysis, column: Column, covers: readonly Cover[], hz: number): number | undefined {
  const registers = registersOf(column, air, covers, MOST_REGISTERS).map(({ frequency }, i) => ({
    register: i + 1,
    away: Math.abs(Math.log(frequency / hz)),
  }));
  return registers.sort((a, b) => a.away - b.away)[0]?.register;
}
