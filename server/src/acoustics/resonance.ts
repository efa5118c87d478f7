import type { AirState } from "./airState.js";
import { zeroBetween } from "./bracket.js";
import { Cancelled } from "./cancelled.js";
import type { Column, Cover } from "./column.js";
import type { Grid } from "./grid.js";
import type { PortStates } from "./network.js";
import { Response, type Sample } from "./response.js";
import { crossings } from "./scan.js";
import { drained, type Steps } from "./steps.js";

/** A resonance at which the jet can sound. */
export interface Sounding {
  /** Hz. */
  readonly frequency: number;
  /** Resistance left at the resonance over ρc/S of the bore at the mouth: the smaller, the stronger the note. */
  readonly resistance: number;
  /** Quality factor, (f/2R)·dX/df: how firmly the resonance holds the pitch. Infinite where nothing takes energy. */
  readonly quality: number;
  /** The strongest other resonance of the same register, where there are two: it may be the one that sounds. */
  readonly rival?: Omit<Sounding, "rival">;
}

export interface Query {
  /** One for each hole, in the column's own order. */
  readonly covers: readonly Cover[];
  /** 1 is the lowest. */
  readonly register: number;
}

export interface Options {
  /** Asked between frequencies; once true, `Cancelled` is thrown. */
  readonly shouldStop?: () => boolean;
  /** Kept from columns asked for before, from which this one may differ in little: gives the same, sooner. */
  readonly grid?: Grid;
}

/** Relative; 1e-10 is 2e-7 cent. */
const TOLERANCE = 1e-10;
/**
 * Where more resistance than ρc/S is left, the reflection at the jet no longer turns round: the reactance grazes zero, but nothing
 * resonates. Our own limit; the weakest minimum of the finite-element cases has half of it.
 */
const LARGEST_RESISTANCE = 1;
/** Far beyond the range of their formulas (ka > 1) openings can give out energy: nothing is told of such a place. Over ρc/S. */
const ROUNDING = 1e-6;
/** Relative step over which the slope of the reactance is taken. */
const SLOPE_STEP = 1e-5;

/**
 * Sounding frequency of each query: where the reactance the jet sees rises through zero at a resistance below ρc/S, registers
 * counted from the bottom. One turn of the reflection at the jet is one register: where its phase turns back before the turn is full
 * and the reactance rises through zero again (a part of the tube resonates beside another), the resonance with the least resistance
 * is taken. So a weak one may come or go without a change of any register's number.
 * Undefined where the plane-wave range of the bore has no such register.
 * Throws a RangeError where the numbers make no instrument, `Cancelled` when told to stop.
 */
export function soundingFrequencies(
  column: Column,
  air: AirState,
  queries: readonly Query[],
  options: Options = {},
): (Sounding | undefined)[] {
  return drained(soundingSteps(column, air, queries, options));
}

/** As `soundingFrequencies`, step by step. */
export function* soundingSteps(
  column: Column,
  air: AirState,
  queries: readonly Query[],
  options: Options = {},
): Steps<(Sounding | undefined)[]> {
  const response = new Response(column, air, undefined, undefined, options.grid);
  const highest = new Map<string, number>();
  const key = (query: Query) => query.covers.join();
  for (const query of queries) {
    if (!(Number.isInteger(query.register) && query.register >= 1)) throw new RangeError("registers count from 1");
    highest.set(key(query), Math.max(query.register, highest.get(key(query)) ?? 0));
  }
  const found = new Map<string, Sounding[]>();
  const soundings: (Sounding | undefined)[] = [];
  for (const query of queries) {
    const name = key(query);
    const known = found.get(name) ?? (yield* lowest(response, query.covers, highest.get(name) as number, options));
    found.set(name, known);
    soundings.push(known[query.register - 1]);
  }
  return soundings;
}

/** The lowest `count` registers of one fingering, fewer where the plane-wave range of the bore ends before. Errors as above. */
export function registersOf(
  column: Column,
  air: AirState,
  covers: readonly Cover[],
  count: number,
  options: Options = {},
): Sounding[] {
  return drained(registerSteps(column, air, covers, count, options));
}

/** As `registersOf`, step by step. */
export function* registerSteps(
  column: Column,
  air: AirState,
  covers: readonly Cover[],
  count: number,
  options: Options = {},
): Steps<Sounding[]> {
  return yield* lowest(new Response(column, air), covers, count, options);
}

/**
 * Impedance the jet works against, Pa s/m³, at each frequency, Hz. With an `ideal` mouth it is the bore's input impedance.
 * Throws a RangeError where the numbers make no instrument or a frequency is not above 0.
 */
export function inputImpedance(
  column: Column,
  air: AirState,
  covers: readonly Cover[],
  frequencies: readonly number[],
): { re: number; im: number }[] {
  const response = new Response(column, air);
  const states = response.states(covers);
  const unit = (air.density * air.soundSpeed) / response.skeleton.area;
  return frequencies.map((frequency) => {
    if (!(frequency > 0 && Number.isFinite(frequency))) throw new RangeError("a frequency must be above 0");
    const { resistance, reactance } = response.at((2 * Math.PI * frequency) / air.soundSpeed, states);
    return { re: resistance * unit, im: reactance * unit };
  });
}

function* lowest(
  response: Response,
  covers: readonly Cover[],
  count: number,
  { shouldStop }: Options,
): Steps<Sounding[]> {
  const states = response.states(covers);
  const found: Sounding[] = [];
  /** Of the register that the scan is in. */
  let rivals: Sounding[] = [];
  if (count < 1) return found;
  for (const crossing of crossings(response, states)) {
    if (crossing === undefined) {
      if (shouldStop?.()) throw new Cancelled();
      yield undefined;
      continue;
    }
    if (crossing.way === "away" && rivals.length > 0) {
      found.push(strongest(rivals));
      rivals = [];
      if (found.length >= count) return found;
    }
    if (crossing.way !== "rises") continue;
    const sounding = soundingAt(response, states, crossing.samples);
    if (sounding && isResonance(sounding.resistance)) rivals.push(sounding);
  }
  return rivals.length === 0 ? found : [...found, strongest(rivals)];
}

/** Of one register's resonances: the one that the least breath makes sound, and its rival. */
function strongest(rivals: readonly Sounding[]): Sounding {
  const [first, rival] = [...rivals].sort((a, b) => a.resistance - b.resistance) as [Sounding, Sounding?];
  return rival === undefined ? first : { ...first, rival };
}

/** Whether something resonates where the reactance vanishes. @param resistance left there, over ρc/S */
export function isResonance(resistance: number): boolean {
  return resistance >= -ROUNDING && resistance < LARGEST_RESISTANCE;
}

function soundingAt(
  response: Response,
  states: PortStates,
  [below, above]: readonly [Sample, Sample],
): Sounding | undefined {
  const k = zeroBetween(
    (x) => response.at(x, states).reactance,
    [below.k, below.reactance],
    [above.k, above.reactance],
    TOLERANCE,
  );
  const step = k * SLOPE_STEP;
  const here = response.at(k, states);
  const slope = (response.at(k + step, states).reactance - here.reactance) / step;
  if (here.resistance < -ROUNDING) return undefined;
  const resistance = Math.max(0, here.resistance);
  return {
    frequency: (k * response.skeleton.air.soundSpeed) / (2 * Math.PI),
    resistance,
    quality: (k * slope) / (2 * resistance),
  };
}
