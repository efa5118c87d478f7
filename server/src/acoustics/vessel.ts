/**
 * The lowest resonance of a vessel with openings (docs/coupled-model.md §10): every opening a port with its chimney, its ends, its
 * share of the fields inside and outside; the vessel's whole air a spring.
 */
import type { AirState } from "./airState.js";
import { type Answer, type AnswerableQuery, type AnswerOrNot, BEYOND_BUDGET, soundingOf } from "./answer.js";
import { coverLength } from "./aperture.js";
import { Cancelled } from "./cancelled.js";
import type { Cover } from "./column.js";
import { rectangleFactor } from "./radiation.js";
import type { Options, Query, Sounding } from "./resonance.js";
import { drained, type Steps } from "./steps.js";
import { Inside } from "./vesselInside.js";
import { Outside, propagationDistance } from "./vesselOutside.js";
import { type Vessel, type VesselHole, volumeOf, wallArea, wallPoint } from "./vesselShape.js";
import { CHORDS, type Opening, type Pole, System } from "./vesselSystem.js";
import { Budget, worked } from "./work.js";

/** Where an opening pierces the wall, and where it leaves it. */
type Pierced = Pick<Opening, "place" | "fields" | "exit">;

/** Whether two vessels differ in their openings at most. */
function isSameShape(one: Vessel, other: Vessel): boolean {
  return one.wall === other.wall && one.semiAxes.every((axis, i) => axis === other.semiAxes[i]);
}

export class Resonator {
  private readonly inside: Inside;
  private readonly volume: number;
  private readonly area: number;
  private readonly all: readonly (readonly [Opening, (cover: Cover) => number])[];
  private readonly outside: Outside;
  private readonly coupled: readonly (readonly number[])[];
  private readonly ways: readonly (readonly number[])[];
  /** Done so far, microseconds (`work.ts`). */
  work = 0;

  /**
   * Throws a RangeError where the numbers make no vessel.
   * @param like one that differs slightly: what does not depend on the difference is taken from it
   */
  constructor(
    readonly vessel: Vessel,
    readonly air: AirState,
    like?: Resonator,
  ) {
    const { mouth, holes, semiAxes, wall } = vessel;
    if (![...semiAxes, wall].every((size) => size > 0))
      throw new RangeError("a vessel needs a cavity and a wall, both larger than nothing");
    const alike = like !== undefined && isSameShape(vessel, like.vessel) ? like : undefined;
    this.inside = alike?.inside ?? new Inside(vessel);
    this.outside = alike?.outside ?? new Outside(vessel);
    this.volume = volumeOf(vessel);
    this.area = wallArea(vessel);
    const placed = (i: number) => alike?.all[i]?.[0];
    this.all = [this.mouthOf(mouth, placed(0)), ...holes.map((hole, i) => this.round(hole, placed(i + 1)))];
    if (
      alike !== undefined &&
      this.all.every(([{ place, exit }], i) => placed(i)?.place === place && placed(i)?.exit === exit)
    ) {
      this.coupled = alike.coupled;
      this.ways = alike.ways;
      return;
    }
    const pairs = (of: (m: Opening, n: Opening) => number) =>
      this.all.map(([m], i) => this.all.map(([n], j) => (i === j ? 0 : of(m, n))));
    const inside = pairs((m, n) => this.inside.between(m.place, m.fields, n.place, n.fields));
    const outside = pairs((m, n) => this.outside.between(m.exit, n.exit));
    this.coupled = inside.map((row, i) => row.map((green, j) => green + (outside[i]?.[j] ?? 0)));
    this.ways = this.all.map(([m], i) =>
      this.all.map(([n], j) => propagationDistance(m.exit, n.exit, outside[i]?.[j] ?? 0)),
    );
  }

  private mouthOf(mouth: Vessel["mouth"], known?: Opening): readonly [Opening, (cover: Cover) => number] {
    const { width, chimney, extra = 0 } = mouth;
    const length = mouth.kind === "window" ? mouth.cutUp : mouth.length;
    if (!(width > 0 && length > 0)) throw new RangeError("the mouth needs a length and a width");
    const cover = mouth.kind === "window" ? 0 : mouth.cover;
    if (!(cover >= 0 && cover < 1)) throw new RangeError("the lip must leave part of the mouth open");
    const area = mouth.kind === "window" ? width * length : (Math.PI / 4) * width * length;
    const flange = mouth.kind === "window" ? rectangleFactor(width, length) : 1;
    const [opening, added] = this.opening(area, chimney, this.pierced(0, 0, chimney, known), flange);
    const lossRadius = mouth.kind === "window" ? area / (width + length) : opening.radius;
    const ends = opening.ends + extra + added(cover);
    if (!(ends + opening.depth > 0))
      throw new RangeError("the mouth's extra length takes away more than the mouth has");
    return [{ ...opening, lossRadius, ends }, () => 0];
  }

  private round({ radius, chimney, angle, elevation }: VesselHole, known?: Opening) {
    if (!(radius > 0)) throw new RangeError("a hole needs a diameter");
    return this.opening(Math.PI * radius * radius, chimney, this.pierced(angle, elevation ?? 0, chimney, known), 1);
  }

  /** Where an opening pierces the wall; what is known of it where it does so at the same place. */
  private pierced(angle: number, elevation: number, chimney: number, known: Opening | undefined): Pierced {
    if (!(chimney > 0)) throw new RangeError("an opening needs a wall");
    const place = wallPoint(this.vessel, angle, elevation);
    const { x, y, z } = known?.place ?? {};
    if (known?.chimney === chimney && x === place.x && y === place.y && z === place.z) return known;
    return { place, fields: this.inside.fieldsAt(place), exit: this.outside.exit(place, chimney) };
  }

  private opening(area: number, chimney: number, { place, fields, exit }: Pierced, flange: number) {
    const radius = Math.sqrt(area / Math.PI);
    const outer = this.outside.ownLength(exit, radius, flange);
    const depth = chimney + ((radius * radius) / 4) * (place.curvature - exit.curvature);
    const ends = this.inside.ownLength(place, fields, radius, flange) + outer;
    const opening: Opening = {
      place,
      fields,
      exit,
      area,
      radius,
      lossRadius: radius,
      chimney,
      depth,
      ends,
    };
    const added = (cover: Cover) => (cover > 0 ? coverLength(radius, outer / radius, cover) : 0);
    return [opening, added] as const;
  }

  /** The resonance with these covers; undefined where the search does not converge. */
  sounding(covers: readonly Cover[]): Sounding | undefined {
    const system = this.system(covers);
    let [re, im] = [system.start, 0];
    for (let round = 0; round < ROUNDS; round++) {
      this.work += system.work;
      worked(system.work);
      const step = system.newton(re, im);
      if (step === undefined || !(re + step[0] > 0)) return undefined;
      re += step[0];
      im += step[1];
      if (Math.hypot(...step) < TOLERANCE * re) return this.soundingAt(re, Math.max(0, im));
    }
    return undefined;
  }

  /** The resonance near `sounding`, with the residual there. */
  pole(covers: readonly Cover[], { frequency, quality }: Sounding): Pole {
    const system = this.system(covers);
    const re = (2 * Math.PI * frequency) / this.air.soundSpeed;
    worked(system.work);
    return system.pole(re, re / (2 * quality));
  }

  /** Wave number, 1/m, in this vessel of a pole of one that differs slightly, by the slope there. */
  displaced(covers: readonly Cover[], pole: Pole): number {
    const system = this.system(covers);
    worked((CHORDS / 2) * system.work);
    return system.displaced(pole);
  }

  private soundingAt(re: number, im: number): Sounding {
    const [mouth] = this.all[0] as (typeof this.all)[number];
    const quality = re / (2 * im);
    return {
      frequency: (re * this.air.soundSpeed) / (2 * Math.PI),
      resistance: (re * (mouth.depth + mouth.ends)) / quality,
      quality,
    };
  }

  private system(covers: readonly Cover[]): System {
    const state = this.all.map((_, i) => (i === 0 ? 0 : (covers[i - 1] ?? 1)));
    const open = state.flatMap((cover, i) => (cover < 1 ? [i] : []));
    const closed = state.flatMap((cover, i) => (cover < 1 ? [] : [i]));
    const opening = (i: number) => (this.all[i] as (typeof this.all)[number])[0];
    const plugged = closed.reduce((sum, i) => sum + opening(i).area * opening(i).chimney, 0);
    const among = (matrix: readonly (readonly number[])[]) => open.map((i) => open.map((j) => matrix[i]?.[j] ?? 0));
    return new System(
      this.air,
      this.inside,
      open.map((i) => {
        const [own, added] = this.all[i] as (typeof this.all)[number];
        return { ...own, ends: own.ends + added(state[i] ?? 0) };
      }),
      among(this.coupled),
      among(this.ways),
      this.volume + plugged,
      this.area,
    );
  }
}

const ROUNDS = 60;
/** Relative; 1e-11 is 2e-8 cent. */
const TOLERANCE = 1e-11;

/** Sounding of each query; a vessel has one register. Throws a RangeError where the numbers make no vessel, `Cancelled`. */
export function vesselSoundings(
  vessel: Vessel,
  air: AirState,
  queries: readonly Query[],
  options: Options = {},
): (Sounding | undefined)[] {
  return drained(vesselSoundingSteps(vessel, air, queries, options));
}

/** As `vesselSoundings`, step by step. */
export function* vesselSoundingSteps(
  vessel: Vessel,
  air: AirState,
  queries: readonly Query[],
  options: Options = {},
): Steps<(Sounding | undefined)[]> {
  return (yield* vesselAnswerSteps(vessel, air, queries, { ...options, budget: undefined })).map(soundingOf);
}

/** As `vesselSoundingSteps`, with what each answer takes, and as far as the budget reaches. */
export function* vesselAnswerSteps(
  vessel: Vessel,
  air: AirState,
  queries: readonly AnswerableQuery[],
  {
    shouldStop,
    budget = new Budget(Number.POSITIVE_INFINITY),
  }: Omit<Options, "budget"> & { readonly budget?: Budget | undefined } = {},
): Steps<AnswerOrNot[]> {
  const resonator = new Resonator(vessel, air);
  const answers: AnswerOrNot[] = [];
  for (const query of queries) {
    if (shouldStop?.()) throw new Cancelled();
    if (query.answer === undefined) yield undefined;
    const answer = budget.isSpent ? undefined : (query.answer ?? answerOf(resonator, query));
    if (answer === undefined || !budget.allows(answer.work)) {
      budget.close();
      answers.push(BEYOND_BUDGET);
      continue;
    }
    budget.spend(answer.work);
    answers.push(answer);
  }
  return answers;
}

function answerOf(resonator: Resonator, { covers, register }: Query): Answer {
  const before = resonator.work;
  const sounding = register === 1 ? resonator.sounding(covers) : undefined;
  return { sounding, work: resonator.work - before, gridWork: 0 };
}
