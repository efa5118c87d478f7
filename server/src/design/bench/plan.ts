/**
 * The order of work on a made instrument: the mouth where all notes are flat, then from the foot to the mouth; how far to open,
 * undercut or shorten, what a tuner should then show, and where to stop. Nothing can be put back, so each cut stops short of where
 * measuring and model could be wrong.
 */

import type { DesignDocument } from "../../document/designFile.js";
import type { Body } from "../../instrument/body.js";
import { secant } from "../fix/solve.js";
import type { Analysis } from "../predict/analysis.js";
import { deviationsIn, type Made, type MadeNote, madeOf, readingsIn, rightReadingsIn } from "./made.js";
import { mouthTask, type Task, tasksOf } from "./tasks.js";
import { type Size, undercuttable, type Workable } from "./workable.js";

export interface ReadNote {
  readonly name: string;
  /** What a tuner shows, and what it shows when the note is right, both in the workshop's air. Cents. */
  readonly reading: number;
  readonly right: number;
}

export interface BenchStep {
  readonly kind: Workable["kind"] | "bush";
  /** `R3`, `the tube`, `pipe 3`. */
  readonly name: string;
  /** m of the finished thing, before and after. */
  readonly from: number;
  readonly to: number;
  /** m: the size that must not be exceeded, at which the note would be right by all that is known. */
  readonly stop: number;
  /** The notes it is for, as they should read with this step and all before it done. */
  readonly notes: readonly ReadNote[];
  /** Where it is written: the path, in metres of the printed object; and the other numbers that change with it. */
  readonly path: Workable["path"];
  readonly drawn: number;
  readonly alsoMoved: readonly Size[];
}

/**
 * No tool for it; a limit of hand, wall or bore; nearer than measuring and model are sure of, or than a tenth of a millimetre; registers of
 * one hole that lie apart on both sides of right, which its size cannot bring together.
 */
export type WhyLeft = "no-tool" | "limit" | "unsure" | "apart";

/** Notes out of tune that are left. */
export interface Left {
  readonly notes: readonly ReadNote[];
  /** How far they lie from right once everything else is done, cents: their middle; for notes apart, from flattest to sharpest. */
  readonly off: number;
  /** How sure that is, cents. */
  readonly unsure: number;
  readonly why: WhyLeft;
}

export interface BenchPlan {
  /** °C of the workshop, for which readings are given, and the one it is made for. */
  readonly workshop: number;
  readonly temperature: number;
  /** Hz of the tuner's A4. */
  readonly pitchStandard: number;
  readonly steps: readonly BenchStep[];
  /** Every note as it reads now. */
  readonly now: readonly (ReadNote & { readonly uncertainty: number | undefined })[];
  /** Notes out of tune that no step is for. */
  readonly left: readonly Left[];
  /** Cents within which a note is taken as right. */
  readonly within: number;
  readonly isMeasured: boolean;
}

export interface BenchOptions {
  /** °C; left out, that at which the notes were measured, else the design's. */
  readonly workshop?: number | undefined;
  readonly within?: number | undefined;
}

/** Cents: what counts as in tune on the bench. */
export const WITHIN = 5;
/** How much more a cut may do than the model says, as a share of it: walls, edges and the model's own error. Our own estimate. */
const MODEL_SHARE = 0.2;
/** m: the least difference of size that is worked, by a tapered reamer turned by hand and a tuner beside it. Common practice, no source. */
const FINEST = 2e-5;
/** Cents: a cut that raises notes that nobody has measured by less is no work, since a tuner shows the same before and after. Common practice, no source. */
const LEAST_RISE = 0.5;
/** m, standard: how far a cut misses its size. Common practice, no source. */
const SLIP = 3e-5;
/** m: with less left to a limit, a part counts as at it. */
const LEAST_ROOM = 1e-4;
/** Sweeps over all parts, in which each is solved with the others at their final sizes: each changes the others' little. */
const SWEEPS = 2;
/** Cents within which a size is right. */
const CLOSE_ENOUGH = 0.05;
/**
 * A cut stops short by one standard deviation of measuring, since what remains is measured again; by less where registers lie apart,
 * but by this share of one at least. Our own estimate.
 */
const LEAST_SPARED = 0.4;
/** Standard deviations by which it stops short at the mouth, which moves all notes and which other parts can make up for. */
const SPARED_AT_MOUTH = 2;
/** Standard deviations beyond which a note counts as really sharp. */
const SURE = 2;
/** A whole step stays one, whatever arithmetic has done to it. */
const ROUNDING = 1e-6;
/** A bush leaves the note this flat, cents, to be opened again. Common practice, no source. */
const BUSH_FLAT = 10;

export function benchPlan(document: DesignDocument, analysis: Analysis, options: BenchOptions = {}): BenchPlan {
  const made = madeOf(analysis);
  const within = options.within ?? WITHIN;
  const workshop = options.workshop ?? made.measuredAt ?? made.temperature;
  const tasks = tasksOf(document, made);
  const mouth = mouthTask(document, made, tasks);
  const end = endOf(made, [...mouth, ...tasks], within);
  const steps: BenchStep[] = [];
  const left: Left[] = [];
  let body = made.body;
  for (const task of [...mouth, ...tasks]) {
    const next = stepFor(made, task, { now: body, end: task.isMouth ? body : end, within });
    const { value, part, kind } = next;
    if (value !== undefined && part !== undefined) {
      const from = part.valueIn(body);
      body = part.bodyWith(body, value);
      const notes = read(made, body, task.notes, workshop);
      const stop = kind === "bush" ? value : part.valueIn(end);
      steps.push({
        kind: kind ?? part.kind,
        name: part.name,
        from,
        to: value,
        stop,
        notes,
        path: part.path,
        drawn: value + part.drawnAdd,
        alsoMoved: part.alsoMoved?.(value) ?? [],
      });
    }
    const why = next.why ?? (value === undefined ? apart(made, task, end, within) : undefined);
    if (why !== undefined && !task.isMouth) left.push({ ...why, notes: read(made, body, task.notes, workshop) });
  }
  const now = read(made, made.body, made.notes, workshop).map((note, i) => ({
    ...note,
    uncertainty: made.notes[i]?.uncertainty,
  }));
  const { pitchStandard } = analysis.instrument.tuning;
  const isMeasured = made.notes.some(({ uncertainty }) => uncertainty !== undefined);
  return { workshop, temperature: made.temperature, pitchStandard, steps, now, left, within, isMeasured };
}

/** Notes of one part that lie out of tune on both sides of right though their middle is right. */
function apart(made: Made, { notes }: Task, body: Body, within: number): Omit<Left, "notes"> | undefined {
  const cents = deviationsIn(made, body, notes).flatMap((each) => each ?? []);
  if (cents.length < 2 || Math.max(...cents.map(Math.abs)) <= within) return undefined;
  const unsure = Math.max(...notes.map((note) => note.unsure));
  return { off: Math.max(...cents) - Math.min(...cents), unsure, why: "apart" };
}

/** The value of a part at which its notes lie `aim` cents from right, as far as work can go; undefined where none is needed. */
function valueFor(task: Pick<Task, "off">, part: Workable, body: Body, aim: number): number | undefined {
  const off = (value: number) => task.off(part.bodyWith(body, value));
  const now = part.valueIn(body);
  const start = off(now);
  if (start === undefined || start >= aim - CLOSE_ENOUGH) return undefined;
  const [least, greatest] = now < part.farthest ? [now, part.farthest] : [part.farthest, now];
  const atEnd = off(part.farthest);
  if (atEnd !== undefined && atEnd <= aim) return part.farthest;
  const step = (part.farthest - now) / 4;
  const solved = secant(
    (value) => {
      const cents = off(value);
      return cents === undefined ? undefined : cents - aim;
    },
    now,
    now + step,
    { least, greatest, tolerance: CLOSE_ENOUGH },
  );
  return solved;
}

/** Final sizes: every part as far open or short as makes its notes right, together with the others. */
function endOf(made: Made, tasks: readonly Task[], within: number): Body {
  let body = made.body;
  for (let sweep = 0; sweep < SWEEPS; sweep++) {
    for (const task of tasks) {
      const { part, isMouth } = task;
      // The mouth is decided by the notes before anything else is done.
      if (part === undefined || (isMouth && sweep > 0)) continue;
      const spare = undercutOf(made, part);
      // From the present size: a later sweep may find that less is needed.
      const fresh = [part, ...(spare === undefined ? [] : [spare])].reduce(
        (old, each) => each.bodyWith(old, each.valueIn(made.body)),
        body,
      );
      body = fresh;
      // A part that needs no work gets none, and must not be counted on.
      if (!mayBeFlat(made, task, fresh, within)) continue;
      const value = valueFor(task, part, fresh, 0);
      if (value !== undefined) body = part.bodyWith(fresh, value);
      // A hole that may not be opened farther is undercut.
      const more =
        spare && Math.abs(part.valueIn(body) - part.farthest) < LEAST_ROOM ? valueFor(task, spare, body, 0) : undefined;
      if (spare !== undefined && more !== undefined) body = spare.bodyWith(body, more);
    }
  }
  return body;
}

/** Whether a note may be flatter than is right: it must be closer by a standard deviation, since what reads 4 flat may well be 6. */
function mayBeFlat(made: Made, task: Task, body: Body, within: number): boolean {
  return flattestOf(made, task, body) < -Math.max(0, within - unsureOf(task));
}

function unsureOf({ notes }: Task): number {
  return notes.reduce((sum, note) => sum + note.unsure, 0) / notes.length;
}

function undercutOf({ analysis }: Made, { hole }: Pick<Workable, "hole">): Workable | undefined {
  return hole === undefined ? undefined : undercuttable(analysis, hole);
}

interface Found {
  readonly part?: Workable | undefined;
  readonly value?: number;
  readonly kind?: "bush";
  readonly why?: Omit<Left, "notes">;
}

/**
 * One cut, or why there is none: nothing at all where the notes are right, or will be with the work elsewhere. That work raises
 * these notes or, by the larger closed space, lowers them, and may never be done: the smaller of the two cuts is given.
 */
function stepFor(
  made: Made,
  task: Task,
  { now, end, within }: { readonly now: Body; readonly end: Body; readonly within: number },
): Found {
  const { part, isMouth } = task;
  const spare = part && undercutOf(made, part);
  const own = [part, spare].filter((each) => each !== undefined);
  const elsewhere = [now, own.reduce((body, each) => each.bodyWith(body, each.valueIn(now)), end)];
  const offs = elsewhere.map((body) => task.off(body));
  const known = offs.filter((each) => each !== undefined);
  const off = Math.max(...known);
  const unsure = unsureOf(task);
  const left = (why: WhyLeft) => (Math.abs(off) <= within ? {} : { why: { off, unsure, why } });
  if (known.length < offs.length) return {};
  if (off <= within && !elsewhere.every((body) => mayBeFlat(made, task, body, within))) return {};
  // Registers that lie apart are brought about right from both sides.
  const apart = Math.max(0, off - flattestOf(made, task, now)) / within;
  const measuring = unsure * (isMouth ? SPARED_AT_MOUTH : Math.max(LEAST_SPARED, 1 - apart));
  if (part === undefined) return left("no-tool");
  if (off > 0) {
    // A bush is work, and what looks sharp may be the measuring.
    if (off <= within + SURE * unsure) return left("unsure");
    return (part.kind === "open" ? bushed(task, part, now) : undefined) ?? left("no-tool");
  }
  // What is measured again after each cut adds up, however little; without a measurement there is nothing to add to.
  const isMeasured = task.notes.some(({ uncertainty }) => uncertainty !== undefined);
  for (const tool of own) {
    const from = tool.valueIn(now);
    const reserve = Math.hypot(measuring, MODEL_SHARE * off, slipOf(task, tool, now));
    const values = elsewhere.map((body) => valueFor(task, tool, body, -reserve) ?? from);
    const value = values.reduce((least, each) => (Math.abs(each - from) < Math.abs(least - from) ? each : least));
    const rounded = Math.trunc((value - from) / FINEST + ROUNDING) * FINEST;
    const end = from + rounded;
    if (rounded !== 0 && (isMeasured || raises(task, tool, now, end) >= LEAST_RISE)) return { part: tool, value: end };
    // Another tool is used only where this one may go no farther.
    if (Math.abs(tool.farthest - (isMeasured ? from : value)) > LEAST_ROOM) return left("unsure");
  }
  return left("limit");
}

/** The flattest of a part's notes; for the mouth, of the first part's, which decides it. */
function flattestOf(made: Made, { isMouth, notes, off }: Task, body: Body): number {
  if (isMouth) return off(body) ?? 0;
  return Math.min(...deviationsIn(made, body, notes).map((cents) => cents ?? 0));
}

/** Cents by which a cut raises its notes. */
function raises(task: Task, tool: Workable, body: Body, value: number): number {
  return (task.off(tool.bodyWith(body, value)) ?? 0) - (task.off(body) ?? 0);
}

/** Cents that a slip of the tool makes: much at a vessel's small holes and its window. */
function slipOf(task: Task, tool: Workable, body: Body): number {
  const now = tool.valueIn(body);
  const [here, there] = [task.off(body), task.off(tool.bodyWith(body, now + SLIP))];
  return here === undefined || there === undefined ? 0 : Math.abs(there - here);
}

/** Too sharp: a sleeve is glued in and opened again, to a size that leaves the note flat. */
function bushed(task: Task, part: Workable, body: Body): Found | undefined {
  const now = part.valueIn(body);
  const narrow = { ...part, farthest: now };
  const from = narrow.bodyWith(body, now / 2);
  const value = valueFor(task, narrow, from, -BUSH_FLAT);
  if (value === undefined) return undefined;
  return { part, value: Math.round(value / FINEST) * FINEST, kind: "bush" };
}

function read(made: Made, body: Body, notes: readonly MadeNote[], workshop: number): ReadNote[] {
  const readings = readingsIn(made, body, notes, workshop);
  const rights = rightReadingsIn(made, body, notes, workshop);
  return notes.flatMap(({ name }, i): ReadNote[] => {
    const [reading, right] = [readings[i], rights[i]];
    return reading === undefined || right === undefined ? [] : [{ name, reading, right }];
  });
}
