/**
 * Soundings of earlier analyses, so that an edit of one fingering or one pipe does not recompute the others; and the last scan's grid, so that an
 * edit of a hole does not recompute everything else at its frequencies.
 */

import type { AirState } from "../../acoustics/airState.js";
import { type Answer, type AnswerOrNot, BEYOND_BUDGET } from "../../acoustics/answer.js";
import { Grid } from "../../acoustics/grid.js";
import type { Options, Query } from "../../acoustics/resonance.js";
import type { Steps } from "../../acoustics/steps.js";
import { type Body, columnFor, roundShape, sharedColumn } from "../../instrument/body.js";
import { bodyTraits } from "../../instrument/families/bodyTraits.js";
import { bodySteps, type IndexedQuery } from "./body.js";

type Remembered = ReadonlyMap<string, Answer>;

/** Columns and vessels remembered: the pipes of a large pan pipe, or a few states of an instrument between edits. */
const MOST_BODIES = 64;

/** Of each body, what it was last asked for. */
export class KnownSoundings {
  /** Keyed by everything that the physics is given except the fingering. Oldest first. */
  private readonly bodies = new Map<string, Remembered>();
  readonly grid = new Grid();

  /** As `bodySteps`, working out only what is not known. @throws Cancelled */
  *steps(
    body: Body,
    air: AirState,
    queries: readonly IndexedQuery[],
    options: Options = {},
  ): Steps<readonly AnswerOrNot[]> {
    const keyOf = bodyKeys(body, air);
    const places = queries.map((query) => ({ query, body: keyOf(query.index), fingering: fingeringKey(query) }));
    const answers = yield* bodySteps(
      body,
      air,
      places.map((place) => ({ ...place.query, answer: this.bodies.get(place.body)?.get(place.fingering) })),
      { ...options, grid: this.grid },
    );
    this.grid.trim();
    const asked = new Map<string, Map<string, Answer>>();
    places.forEach((place, i) => {
      const own = asked.get(place.body) ?? new Map<string, Answer>();
      const answer = answers[i];
      if (answer !== undefined && answer !== BEYOND_BUDGET) own.set(place.fingering, answer);
      asked.set(place.body, own);
    });
    for (const [key, own] of asked) this.keep(key, own);
    return answers;
  }

  private keep(key: string, own: Remembered): void {
    this.bodies.delete(key);
    this.bodies.set(key, own);
    const [oldest] = this.bodies.keys();
    if (this.bodies.size > MOST_BODIES && oldest !== undefined) this.bodies.delete(oldest);
  }
}

const fingeringKey = ({ covers, register }: Query): string => `${covers.join()} ${register}`;

/** The key of what sounds a fingering: made once for an instrument of one body, once per pipe for a pan pipe. */
function bodyKeys(body: Body, air: AirState): (index: number) => string {
  const whole = JSON.stringify([roundShape(body) ?? sharedColumn(body), air]);
  return bodyTraits(body).notesApart ? (index) => JSON.stringify([columnFor(body, index), air]) : () => whole;
}
