/**
 * The order of work on a made instrument, from the foot to the mouth: how far to open, undercut or shorten, what a tuner should
 * then show, and where to stop. Nothing can be put back, so that each cut stops short of where measuring and model could be wrong.
 */

import type { DesignDocument } from "../../document/designFile.js";
import { type Body, sharedColumn } from "../../instrument/body.js";
import { bodyTraits } from "../../instrument/families/bodyTraits.js";
import { benchConstraintsOf } from "../constraints/constraints.js";
import { secant } from "../fix/solve.js";
import type { Analysis } from "../predict/analysis.js";
import { governedFingerings } from "../predict/governing.js";
import { deviationsIn, type Made, type MadeNote, madeOf, readingsIn, rightReadingsIn } from "./made.js";
import { openable, toShorten, undercuttable, type Workable } from "./workable.js";

export interface ReadNote {
  readonly name: string;
  /** What a tuner shows, and what it shows of the note when it is right, both in the workshop's air. Cents. */
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
  /** m: the size that must not be passed, at which the note would be right by all that is known. */
  readonly stop: number;
  /** The notes it is for, as they should read with this step and all before it done. */
  readonly notes: readonly ReadNote[];
  /** What it is written as: the path, in metres of the printed object. */
  readonly path: Workable["path"];
  readonly drawn: number;
}

/** No tool for it; a limit of hand, wall or bore; nearer than measuring and model are sure of, or than a tenth of a millimetre. */
export type WhyLeft = "no-tool" | "limit" | "unsure";

/** Notes out of tune that nothing is done about. */
export interface Left {
  readonly notes: readonly ReadNote[];
  /** How far they lie from right once everything else is done, cents; the middle of them. */
  readonly off: number;
  /** How sure that is, cents. */
  readonly unsure: number;
  readonly why: WhyLeft;
}

export interface BenchPlan {
  /** °C of the workshop, in which readings are told, and the one it is made for. */
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
/** How far a cut may do more than the model says, as a share of it: walls, edges and the model's own error. Our own reckoning. */
const MODEL_SHARE = 0.2;
/** m: the least difference of size that is worked, by a tapered reamer turned by hand. Common practice, no source. */
const FINEST = 5e-5;
/** m: with less left to a limit, a part is taken to be at it. */
const LEAST_ROOM = 2 * FINEST;
/** Sweeps over all parts, in which each is solved with the others where they are to end: each changes the others' little. */
const SWEEPS = 2;
/** Cents within which a size is right. */
const CLOSE_ENOUGH = 0.05;
/** Standard deviations of measuring that a cut stops short by: what remains is measured again. */
const SPARED = 1;
/** Standard deviations beyond which a note is taken to be sharp indeed. */
const SURE = 2;
/** A whole step stays one, whatever arithmetic has done to it. */
const ROUNDING = 1e-6;
/** A bush leaves the note so flat, cents, to be opened again. Common practice, no source. */
const BUSH_FLAT = 10;

/** Notes that one part decides, and the part; undefined where the bench has no tool for it. */
interface Task {
  readonly part: Workable | undefined;
  readonly notes: readonly MadeNote[];
}

export function benchPlan(document: DesignDocument, analysis: Analysis, options: BenchOptions = {}): BenchPlan {
  const made = madeOf(analysis);
  const within = options.within ?? WITHIN;
  const workshop = options.workshop ?? made.measuredAt ?? made.temperature;
  const tasks = tasksOf(document, made);
  const end = endOf(made, tasks);
  const steps: BenchStep[] = [];
  const left: Left[] = [];
  let body = made.body;
  for (const task of tasks) {
    const next = stepFor(made, task, { now: body, end, within });
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
      });
    }
    const { why } = next;
    if (why !== undefined) left.push({ ...why, notes: read(made, body, task.notes, workshop) });
  }
  const now = read(made, made.body, made.notes, workshop).map((note, i) => ({
    ...note,
    uncertainty: made.notes[i]?.uncertainty,
  }));
  const { pitchStandard } = analysis.instrument.tuning;
  const isMeasured = made.notes.some(({ uncertainty }) => uncertainty !== undefined);
  return { workshop, temperature: made.temperature, pitchStandard, steps, now, left, within, isMeasured };
}

/** From the foot to the mouth; in a vessel, from the hole that is opened first in the scale. */
function tasksOf(document: DesignDocument, made: Made): readonly Task[] {
  const { analysis, notes } = made;
  const { instrument } = analysis;
  const constraints = benchConstraintsOf(document);
  const groups = governedFingerings(analysis).map(({ hole, fingerings }) => ({
    hole,
    fingering: fingerings[0] ?? 0,
    notes: notes.filter(({ query }) => fingerings.includes(query.index)),
  }));
  const uses = (hole: number | undefined) =>
    hole === undefined
      ? Number.POSITIVE_INFINITY
      : instrument.fingerings.filter(({ covers }) => (covers?.[hole] ?? 1) < 1).length;
  const place = (hole: number | undefined) =>
    hole === undefined ? Number.POSITIVE_INFINITY : (sharedColumn(instrument.body)?.holes[hole]?.x ?? 0);
  const ordered = bodyTraits(instrument.body).holesTunedByPlace
    ? groups.sort((a, b) => place(b.hole) - place(a.hole))
    : groups.sort((a, b) => uses(b.hole) - uses(a.hole));
  return ordered.map(({ hole, fingering, notes: own }) => ({
    notes: own,
    part: hole !== undefined ? openable(analysis, constraints, hole) : toShorten(analysis, fingering),
  }));
}

/** The middle between the flattest and the sharpest of the notes; undefined where one does not sound. */
function middle(made: Made, body: Body, notes: readonly MadeNote[]): number | undefined {
  const cents = deviationsIn(made, body, notes);
  const known = cents.filter((each) => each !== undefined);
  return known.length < cents.length || known.length === 0 ? undefined : (Math.max(...known) + Math.min(...known)) / 2;
}

/** The value of a part at which its notes lie `aim` cents from right, as far as work can go; undefined where it needs none. */
function valueFor(made: Made, { notes }: Task, part: Workable, body: Body, aim: number): number | undefined {
  const off = (value: number) => middle(made, part.bodyWith(body, value), notes);
  const now = part.valueIn(body);
  const start = off(now);
  if (start === undefined || start >= aim - CLOSE_ENOUGH) return undefined;
  const [least, greatest] = now < part.farthest ? [now, part.farthest] : [part.farthest, now];
  const atEnd = off(part.farthest);
  if (atEnd !== undefined && atEnd <= aim) return part.farthest === now ? undefined : part.farthest;
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

/** Where work is to end: every part as far open or short as makes its notes right, with the others so, too. */
function endOf(made: Made, tasks: readonly Task[]): Body {
  let body = made.body;
  for (let sweep = 0; sweep < SWEEPS; sweep++) {
    for (const task of tasks) {
      const { part } = task;
      if (part === undefined) continue;
      const spare = undercutOf(made, part);
      // From what is made: a later sweep may find that less is needed.
      const fresh = [part, ...(spare === undefined ? [] : [spare])].reduce(
        (old, each) => each.bodyWith(old, each.valueIn(made.body)),
        body,
      );
      const value = valueFor(made, task, part, fresh, 0);
      body = value === undefined ? fresh : part.bodyWith(fresh, value);
      // A hole that may not be opened farther is undercut.
      const more =
        spare && Math.abs(part.valueIn(body) - part.farthest) < LEAST_ROOM
          ? valueFor(made, task, spare, body, 0)
          : undefined;
      if (spare !== undefined && more !== undefined) body = spare.bodyWith(body, more);
    }
  }
  return body;
}

function undercutOf({ analysis }: Made, { hole }: Workable): Workable | undefined {
  return hole === undefined ? undefined : undercuttable(analysis, hole);
}

interface Found {
  readonly part?: Workable | undefined;
  readonly value?: number;
  readonly kind?: "bush";
  readonly why?: Omit<Left, "notes">;
}

/**
 * One cut, or why there is none: nothing at all where the notes are right, or will be with what is done elsewhere. What is still
 * opened elsewhere raises these notes or, by its closed room, lowers them, and may never be done: the lesser cut of both is told.
 */
function stepFor(
  made: Made,
  task: Task,
  { now, end, within }: { readonly now: Body; readonly end: Body; readonly within: number },
): Found {
  const { part, notes } = task;
  const spare = part && undercutOf(made, part);
  const own = [part, spare].filter((each) => each !== undefined);
  const elsewhere = [now, own.reduce((body, each) => each.bodyWith(body, each.valueIn(now)), end)];
  const offs = elsewhere.map((body) => middle(made, body, notes));
  const known = offs.filter((each) => each !== undefined);
  const off = Math.max(...known);
  const unsure = notes.reduce((sum, note) => sum + note.unsure, 0) / notes.length;
  const left = (why: WhyLeft) => (Math.abs(off) <= within ? {} : { why: { off, unsure, why } });
  const reserve = Math.hypot(SPARED * unsure, MODEL_SHARE * off);
  // Of two registers of one hole the flatter counts as long as the middle of them has room.
  const flattest = Math.min(...deviationsIn(made, now, notes).map((cents) => cents ?? 0));
  const isRight = Math.abs(off) <= within && !(flattest < -within && off < -reserve);
  if (known.length < offs.length || isRight) return {};
  if (part === undefined) return left("no-tool");
  if (off > 0) {
    // A bush is work, and what looks sharp may be the measuring.
    if (off <= within + SURE * unsure) return left("unsure");
    return (part.kind === "open" ? bushed(made, task, part, now) : undefined) ?? left("no-tool");
  }
  for (const tool of own) {
    const from = tool.valueIn(now);
    const values = elsewhere.map((body) => valueFor(made, task, tool, body, -reserve) ?? from);
    const value = values.reduce((least, each) => (Math.abs(each - from) < Math.abs(least - from) ? each : least));
    const rounded = Math.trunc((value - from) / FINEST + ROUNDING) * FINEST;
    if (rounded !== 0) return { part: tool, value: from + rounded };
    // Only where it may go no farther is another tool taken.
    if (Math.abs(tool.farthest - from) > LEAST_ROOM) return left("unsure");
  }
  return left("limit");
}

/** Too sharp: a sleeve is glued in and opened again, to a size that leaves the note flat. */
function bushed(made: Made, task: Task, part: Workable, body: Body): Found | undefined {
  const now = part.valueIn(body);
  const narrow = { ...part, farthest: now };
  const from = narrow.bodyWith(body, now / 2);
  const value = valueFor(made, task, narrow, from, -BUSH_FLAT);
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
