/** What a fingering sounds, and what it takes to find out. */
import type { Cover } from "./column.js";

/** A resonance at which the jet can sound. */
export interface Sounding {
  /** Hz. */
  readonly frequency: number;
  /** Resistance left at the resonance over ρc/S of the bore at the mouth: the smaller, the stronger the note. */
  readonly resistance: number;
  /** Quality factor, (f/2R)·dX/df: how firmly the resonance holds the pitch. Infinite without losses. */
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

export interface Answer {
  /** Undefined where there is no such register. */
  readonly sounding: Sounding | undefined;
  /** Microseconds (`work.ts`) from the bottom to this register, whatever was known before: the same for every order of asking. */
  readonly work: number;
  /** The part of it spent on the column at the common grid's frequencies, microseconds: fingerings share it. */
  readonly gridWork: number;
}

/** A query that may have been answered before: then its work counts as if it were done now. */
export interface AnswerableQuery extends Query {
  readonly answer?: Answer | undefined;
}

/** The answer to a query beyond the budget. */
export const BEYOND_BUDGET = "beyond the budget";

export type AnswerOrNot = Answer | typeof BEYOND_BUDGET;

/** @throws where there is none, which cannot be without a budget */
export function soundingOf(answer: AnswerOrNot): Sounding | undefined {
  if (answer === BEYOND_BUDGET) throw new Error("asked without a budget, and yet beyond it");
  return answer.sounding;
}
