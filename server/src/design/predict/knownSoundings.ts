/**
 * Soundings of earlier analyses, so that an edit of one fingering or one pipe leaves the others alone; and the last scan's grid, so that
 * an edit of a hole leaves what frequencies make of all others.
 */
import type { AirState } from "../../acoustics/airState.js";
import { Grid } from "../../acoustics/grid.js";
import type { Options, Query, Sounding } from "../../acoustics/resonance.js";
import type { Steps } from "../../acoustics/steps.js";
import { type Body, bodySteps, columnFor, type IndexedQuery } from "./body.js";

type Remembered = ReadonlyMap<string, Sounding | undefined>;

/** Columns and vessels remembered: the pipes of a large pan pipe, or a few states of an instrument between edits. */
const MOST_BODIES = 64;

/** Of each body, what it was last asked for. */
export class KnownSoundings {
  /** By all that the physics is given but the fingering. Oldest first. */
  private readonly bodies = new Map<string, Remembered>();
  private readonly grid = new Grid();

  /** As `bodySteps`, working out only what is not known. @throws Cancelled */
  *steps(
    body: Body,
    air: AirState,
    queries: readonly IndexedQuery[],
    options: Options = {},
  ): Steps<readonly (Sounding | undefined)[]> {
    const keyOf = bodyKeys(body, air);
    const places = queries.map((query) => ({ query, body: keyOf(query.index), fingering: fingeringKey(query) }));
    const missing = places.filter((place) => !this.bodies.get(place.body)?.has(place.fingering));
    const found = yield* bodySteps(
      body,
      air,
      missing.map(({ query }) => query),
      { ...options, grid: this.grid },
    );
    this.grid.trim();
    const fresh = new Map(missing.map((place, i) => [place, found[i]]));
    const soundings = places.map((place) =>
      fresh.has(place) ? fresh.get(place) : this.bodies.get(place.body)?.get(place.fingering),
    );
    const asked = new Map<string, Map<string, Sounding | undefined>>();
    places.forEach((place, i) => {
      const own = asked.get(place.body) ?? new Map();
      asked.set(place.body, own.set(place.fingering, soundings[i]));
    });
    for (const [key, own] of asked) this.keep(key, own);
    return soundings;
  }

  private keep(key: string, own: Remembered): void {
    this.bodies.delete(key);
    this.bodies.set(key, own);
    const [oldest] = this.bodies.keys();
    if (this.bodies.size > MOST_BODIES && oldest !== undefined) this.bodies.delete(oldest);
  }
}

const fingeringKey = ({ covers, register }: Query): string => `${covers.join()} ${register}`;

/** The key of what sounds a fingering: made once for an instrument of one body, once a pipe for a pan pipe. */
function bodyKeys(body: Body, air: AirState): (index: number) => string {
  const whole = JSON.stringify([body.vessel?.shape ?? body.column, air]);
  return body.pipes === undefined ? () => whole : (index) => JSON.stringify([columnFor(body, index), air]);
}
