/**
 * Refit problems whose notes follow a few dimensions by a formula, so that their optima can be worked out by hand.
 */
import { expect } from "vitest";
import type { Preference } from "../../server/src/design/constraints/comfort.js";
import type { Limit } from "../../server/src/design/constraints/limit.js";
import type { Unknown } from "../../server/src/design/constraints/unknowns.js";
import type { Task } from "../../server/src/design/refit/bestFit.js";
import type { FitProblem } from "../../server/src/design/refit/fit.js";

export type Point = readonly number[];
export type Heard = (x: Point) => readonly number[] | undefined;

export interface Made {
  /** Cents of each note at a point as they are followed; undefined where one is lost. */
  readonly heard: Heard;
  /** As a scan finds them. Default: the same. */
  readonly scanned?: Heard;
  readonly count: number;
  readonly limits?: readonly Limit[];
  readonly comfort?: readonly Preference[];
  readonly isSpent?: () => boolean;
  readonly enough?: number;
}

/** A problem with these notes, and how often they were asked for. Slopes are by small differences. */
export function problemOf({
  heard,
  scanned = heard,
  count,
  limits = [],
  comfort = [],
  isSpent = () => false,
  enough = 5,
}: Made) {
  const asked = { followed: 0, scanned: 0, restarts: [] as Point[] };
  const notesAt = (of: Heard, x: Point) => {
    const cents = of(x);
    return cents && { x, cents, column: undefined, frequencies: [] };
  };
  const tuner = {
    at: (x: Point) => {
      asked.followed++;
      return notesAt(heard, x);
    },
    scanned: (x: Point) => {
      asked.scanned++;
      return notesAt(scanned, x);
    },
    restart: (x: Point) => asked.restarts.push(x),
    // By the formula that is followed, also where a scan has found the notes.
    slopes: ({ x }: { readonly x: Point }) => {
      const here = heard(x) ?? [];
      const columns = x.map((_, i) => {
        const there = heard(x.map((value, j) => (i === j ? value + 1e-6 : value))) ?? here;
        return here.map((each, note) => ((there[note] ?? each) - each) / 1e-6);
      });
      return here.map((_, note) => columns.map((column) => column[note] ?? 0));
    },
  };
  const unknowns = Array.from({ length: count }, (_, index): Unknown => ({ kind: "hole-place", index, path: [] }));
  const problem: FitProblem = {
    tuner: tuner as unknown as FitProblem["tuner"],
    unknowns,
    limits,
    comfort,
    enough,
    isSpent,
    mostSteps: 12,
  };
  return { problem, asked };
}

/** `x[i]` at most, or at least, this many millimetres. */
export function limit(i: number, sign: "most" | "least", mm: number, more: Partial<Limit> = {}): Limit {
  const factor = sign === "most" ? -1 : 1;
  return {
    row: new Map([[i, factor]]),
    least: factor * mm,
    complaint: (needed) => `${i} at ${sign} ${mm}, ${needed.toFixed(1)} needed`,
    advice: `widen ${i}`,
    value: (x) => x[i] ?? Number.NaN,
    limitAt: () => mm,
    ...more,
  };
}

/** Each note follows its own dimension, 1 cent a millimetre, and is right at these. */
export const apart =
  (...right: readonly number[]): Heard =>
  (x) =>
    right.map((mm, i) => (x[i] ?? 0) - mm);
export const close = (x: Point, digits = 1) => x.map((mm) => expect.closeTo(mm, digits));

interface Tried extends Made {
  readonly starts: readonly [Point, ...Point[]];
  readonly step?: number;
  readonly limitsAt?: (x: Point) => readonly Limit[];
  readonly most?: number;
  /** Cents. */
  readonly tolerance?: number;
}

export function taskOf({ starts, step = 0.5, limitsAt, most, tolerance = 2, ...made }: Tried) {
  const { problem, asked } = problemOf(made);
  const task = {
    problem,
    limits: problem.limits,
    limitsAt: limitsAt ?? (() => problem.limits),
    steps: Array.from({ length: made.count }, () => ({ step, offset: 0 })),
    staying: new Set<number>(),
    starts,
    tolerance,
    options: {},
    ...(most === undefined ? {} : { most }),
  } as unknown as Task;
  return { task, asked };
}
