/** Which ways to cover the holes sound near a note, and at what frequency. */
import type { AirState } from "../../acoustics/airState.js";
import { type AnswerableQuery, type Sounding, soundingOf } from "../../acoustics/answer.js";
import type { Column, Cover } from "../../acoustics/column.js";
import { rises } from "../../acoustics/excitation.js";
import { Grid } from "../../acoustics/grid.js";
import type { PortStates } from "../../acoustics/portStates.js";
import { answerSteps } from "../../acoustics/resonance.js";
import { Response } from "../../acoustics/response.js";
import type { Steps } from "../../acoustics/steps.js";
import { vesselSoundingSteps } from "../../acoustics/vessel.js";
import type { Vessel } from "../../acoustics/vesselShape.js";
import { centsAbove, ratioOfCents } from "../../music/cents.js";

/** Beyond half a semitone another note is closer. Cents. */
export const WINDOW = 50;

export interface Sound {
  readonly covers: readonly Cover[];
  readonly register: number;
  readonly sounding: Sounding;
}

/** A way that sounds near the note, by a first estimate. */
export interface Glimpse {
  readonly covers: readonly Cover[];
  /** Above the note. */
  readonly cents: number;
  readonly resistance: number;
}

/** What can be asked for the ways near a note, one note after the other. */
export interface Sounds {
  /** @param best which of the estimates to evaluate closely */
  near(hz: number, best: (glimpses: readonly Glimpse[]) => readonly Glimpse[]): Steps<readonly Sound[]>;
}

/** Higher registers are not searched. */
const HIGHEST_REGISTER = 12;

/** Of a column. */
export class ColumnSounds implements Sounds {
  private readonly response: Response;
  /** Made when they are first asked about. */
  private readonly states: PortStates[] = [];
  private readonly grid = new Grid();
  private asked = 0;
  private lowest: number | undefined;

  /** Throws a RangeError where the numbers make no instrument. */
  constructor(
    private readonly column: Column,
    private readonly air: AirState,
    private readonly patterns: readonly (readonly Cover[])[],
  ) {
    this.response = new Response(column, air);
  }

  *near(hz: number, best: (glimpses: readonly Glimpse[]) => readonly Glimpse[]): Steps<readonly Sound[]> {
    const glimpses = best(yield* this.glimpses(hz));
    const registers = Math.min(HIGHEST_REGISTER, Math.ceil((hz * ratioOfCents(WINDOW)) / (yield* this.lowestHz())));
    const queries = glimpses.flatMap(({ covers }): AnswerableQuery[] =>
      // A turn of the reflection may be passed without a resonance: one more register does no harm.
      Array.from({ length: registers }, (_, i) => ({ covers, register: i + 1 })),
    );
    const answers = yield* answerSteps(this.column, this.air, queries, { grid: this.grid });
    return queries.flatMap(({ covers, register }, i) => {
      const sounding = answers[i] && soundingOf(answers[i]);
      return sounding !== undefined && isNear(sounding, hz) ? [{ covers, register, sounding }] : [];
    });
  }

  /** A resonance lies between two frequencies where the reactance rises through zero; a straight line says where well enough. */
  private *glimpses(hz: number): Steps<readonly Glimpse[]> {
    const { response } = this;
    const k = (cents: number) => (2 * Math.PI * hz * ratioOfCents(cents)) / this.air.soundSpeed;
    const [low, high] = [this.asked++, this.asked++];
    const found: Glimpse[] = [];
    for (const [i, covers] of this.patterns.entries()) {
      yield undefined;
      const states = this.states[i] ?? response.states(covers);
      this.states[i] = states;
      const below = response.onGrid(low, k(-WINDOW), states);
      // Most ways are dropped here, at half the cost.
      if (!rises(below.reactance, Number.POSITIVE_INFINITY)) continue;
      const above = response.onGrid(high, k(WINDOW), states);
      if (!rises(below.reactance, above.reactance)) continue;
      const share = below.reactance / (below.reactance - above.reactance);
      const resistance = below.resistance + share * (above.resistance - below.resistance);
      found.push({ covers, cents: (2 * share - 1) * WINDOW, resistance });
    }
    return found;
  }

  /** For all ways: what sounds with every hole closed. */
  private *lowestHz(): Steps<number> {
    if (this.lowest === undefined) {
      const closed = this.column.holes.map((): Cover => 1);
      const [answer] = yield* answerSteps(this.column, this.air, [{ covers: closed, register: 1 }], {
        grid: this.grid,
      });
      this.lowest = (answer && soundingOf(answer)?.frequency) ?? 0;
    }
    return this.lowest;
  }
}

/** Of a vessel, which has one register. */
export class VesselSounds implements Sounds {
  private all: readonly (Sounding | undefined)[] | undefined;

  constructor(
    private readonly vessel: Vessel,
    private readonly air: AirState,
    private readonly patterns: readonly (readonly Cover[])[],
  ) {}

  *near(hz: number): Steps<readonly Sound[]> {
    this.all ??= yield* vesselSoundingSteps(
      this.vessel,
      this.air,
      this.patterns.map((covers) => ({ covers, register: 1 })),
    );
    return this.all.flatMap((sounding, i) =>
      sounding !== undefined && isNear(sounding, hz)
        ? [{ covers: this.patterns[i] as readonly Cover[], register: 1, sounding }]
        : [],
    );
  }
}

function isNear({ frequency }: Sounding, hz: number): boolean {
  return Math.abs(centsAbove(frequency, hz)) <= WINDOW;
}
