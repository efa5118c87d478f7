import type { AirState } from "./airState.js";
import {
  type Answer,
  type AnswerableQuery,
  type AnswerOrNot,
  BEYOND_BUDGET,
  type Query,
  type Sounding,
  soundingOf,
} from "./answer.js";
import { Cancelled } from "./cancelled.js";
import type { Column, Cover } from "./column.js";
import { strengthAt } from "./excitation.js";
import type { Grid } from "./grid.js";
import type { PortStates } from "./portStates.js";
import { Registers } from "./registers.js";
import { Response } from "./response.js";
import { type Crossing, crossings } from "./scan.js";
import { drained, type Steps } from "./steps.js";
import { Budget } from "./work.js";
import { zeroNear } from "./zeroNear.js";

export type { Query, Sounding };

export interface Options {
  /** Asked between frequencies; once true, `Cancelled` is thrown. */
  readonly shouldStop?: () => boolean;
  /** Kept from columns asked for before, from which this one may differ slightly: gives the same, sooner. */
  readonly grid?: Grid;
  /** The work that queries may take, one after the other in order; absent: as much as they need. */
  readonly budget?: Budget;
}

/**
 * Sounding frequency of each query: where the reactance the jet sees rises through zero at a resistance below ρc/S, registers
 * counted from the bottom. One turn of the reflection at the jet is one register: where its phase turns back before the turn is full
 * and the reactance rises through zero again (a part of the tube resonates beside another), the resonance with the least resistance
 * is taken. So a weak one may come or go without changing any register's number; where it might change one, the resonance that the register would have
 * then is its rival (`registers.ts`).
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
  return (yield* answerSteps(column, air, queries, { ...options, budget: undefined })).map(soundingOf);
}

/** As `soundingSteps`, with what each answer takes, and as far as the budget reaches. */
export function* answerSteps(
  column: Column,
  air: AirState,
  queries: readonly AnswerableQuery[],
  options: Omit<Options, "budget"> & { readonly budget?: Budget | undefined } = {},
): Steps<AnswerOrNot[]> {
  for (const { register } of queries)
    if (!(Number.isInteger(register) && register >= 1)) throw new RangeError("registers count from 1");
  const { budget = new Budget(Number.POSITIVE_INFINITY), shouldStop } = options;
  let response: Response | undefined;
  const scanOf = (covers: readonly Cover[]) => {
    response ??= new Response(column, air, undefined, undefined, options.grid);
    return new Scan(response, covers);
  };
  const scans = new Map<string, Scan>();
  /** Work of scans and of the grid that has been paid for, microseconds. */
  const charged = new Map<string, number>();
  let gridCharged = 0;
  // Numbers that make no instrument are refused in every case.
  if (queries.length === 0) scanOf(column.holes.map(() => 1));
  const answers: AnswerOrNot[] = [];
  for (const query of queries) {
    const name = query.covers.join();
    const before = charged.get(name) ?? 0;
    const costOf = ({ work, gridWork }: Omit<Answer, "sounding">) =>
      Math.max(0, work - before) + Math.max(0, gridWork - gridCharged);
    let { answer } = query;
    if (answer === undefined) {
      const scan = scans.get(name) ?? scanOf(query.covers);
      scans.set(name, scan);
      for (answer = scan.answerTo(query.register); answer === undefined && budget.allows(costOf(scan)); ) {
        if (shouldStop?.()) throw new Cancelled();
        yield undefined;
        scan.goOn();
        answer = scan.answerTo(query.register);
      }
    }
    if (answer === undefined || !budget.allows(costOf(answer))) {
      budget.close();
      answers.push(BEYOND_BUDGET);
      continue;
    }
    budget.spend(costOf(answer));
    charged.set(name, Math.max(before, answer.work));
    gridCharged = Math.max(gridCharged, answer.gridWork);
    answers.push(answer);
  }
  return answers;
}

/** Share of the grid's frequencies (steps and their middles) that a scan asks for: strides skip most. */
const GRID_MADE = 0.25;

/** One fingering's registers, from the bottom as far as they are asked for. */
class Scan {
  /** Microseconds so far, as `Answer` has them. */
  work = 0;
  gridWork = 0;
  private readonly states: PortStates;
  private readonly crossings: ReturnType<typeof crossings>;
  private readonly registers = new Registers();
  private readonly found: Answer[] = [];

  constructor(
    private readonly response: Response,
    covers: readonly Cover[],
  ) {
    this.states = response.states(covers);
    this.crossings = crossings(response, this.states);
  }

  /** Undefined where it must go on. */
  answerTo(register: number): Answer | undefined {
    const { work, gridWork } = this;
    return this.found[register - 1] ?? (this.registers.isDone ? { sounding: undefined, work, gridWork } : undefined);
  }

  goOn(): void {
    const { response } = this;
    const before = response.work;
    response.reach = 0;
    const { value: crossing, done } = this.crossings.next();
    const sounding = crossing?.way === "rises" ? soundingAt(response, this.states, crossing) : undefined;
    this.work += response.work - before;
    this.gridWork = Math.max(this.gridWork, response.reach * GRID_MADE * response.pointWork);
    if (sounding !== undefined) this.registers.rises(sounding);
    else if (crossing !== undefined && crossing.way !== "rises")
      this.registers.gap(crossing.way === "away", crossing.isCloseCall === true);
    this.registers.isDone = done === true;
    if (crossing !== undefined || done) this.count();
  }

  private count(): void {
    for (;;) {
      const sounding = this.registers.sounding(this.found.length + 1);
      if (sounding === "later" || sounding === undefined) return;
      this.found.push({ sounding, work: this.work, gridWork: this.gridWork });
    }
  }
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

/** As `registersOf`, step by step: soundings in Hz. */
export function* registerSteps(
  column: Column,
  air: AirState,
  covers: readonly Cover[],
  count: number,
  options: Options = {},
): Steps<Sounding[]> {
  const queries = Array.from({ length: count }, (_, i) => ({ covers, register: i + 1 }));
  return (yield* soundingSteps(column, air, queries, options)).filter((sounding) => sounding !== undefined);
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
  return drained(impedanceSteps(column, air, covers, frequencies));
}

/** As `inputImpedance`, step by step. @param frequencies Hz */
export function* impedanceSteps(
  column: Column,
  air: AirState,
  covers: readonly Cover[],
  frequencies: readonly number[],
): Steps<{ re: number; im: number }[]> {
  const response = new Response(column, air);
  const states = response.states(covers);
  const unit = (air.density * air.soundSpeed) / response.geometry.area;
  const found: { re: number; im: number }[] = [];
  for (const frequency of frequencies) {
    yield undefined;
    if (!(frequency > 0 && Number.isFinite(frequency))) throw new RangeError("a frequency must be above 0");
    const { resistance, reactance } = response.at((2 * Math.PI * frequency) / air.soundSpeed, states);
    found.push({ re: resistance * unit, im: reactance * unit });
  }
  return found;
}

function soundingAt(response: Response, states: PortStates, { samples, known }: Crossing): Sounding | undefined {
  const { sample, slope } = zeroNear((k) => response.at(k, states), samples, known);
  const { k, resistance } = sample;
  const strength = strengthAt(k, resistance, slope);
  return strength && { frequency: (k * response.geometry.air.soundSpeed) / (2 * Math.PI), ...strength };
}
