/** The work on a made instrument: the notes that each part decides, in the order of work. */
import type { DesignDocument } from "../../document/designFile.js";
import { type Body, sharedColumn } from "../../instrument/body.js";
import { bodyTraits } from "../../instrument/families/bodyTraits.js";
import { benchConstraintsOf } from "../constraints/constraints.js";
import { governedFingerings } from "../predict/governing.js";
import { deviationsIn, type Made, type MadeNote } from "./made.js";
import { mouthToOpen } from "./mouthOpening.js";
import { openable, toShorten, type Workable } from "./workable.js";

/** Notes that one part decides, and the part; undefined where the bench has no tool for it. */
export interface Task {
  readonly part: Workable | undefined;
  readonly notes: readonly MadeNote[];
  /** Whether the tube's, the pipe's or the vessel's own size decides them rather than a hole. */
  readonly isLength: boolean;
  /** Whether the part is the mouth, which moves all notes. */
  readonly isMouth: boolean;
  /** Cents from right of the notes that the part should correct; undefined where a note does not sound. */
  readonly off: (body: Body) => number | undefined;
}

/** From the foot to the mouth; in a vessel, from the hole that is opened first in the scale. */
export function tasksOf(document: DesignDocument, made: Made): readonly Task[] {
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
    isLength: hole === undefined,
    isMouth: false,
    part: hole !== undefined ? openable(analysis, constraints, hole) : toShorten(analysis, fingering),
    off: (body) => middle(made, body, own),
  }));
}

/**
 * The mouth, before everything else: its opening raises all notes, and lips or a printer that lower them all are put right there, where their
 * registers keep together. It is opened until the first part's notes are right. None where each pipe has a mouth of its own, or the
 * design does not describe its opening.
 */
export function mouthTask(document: DesignDocument, made: Made, tasks: readonly Task[]): readonly Task[] {
  const part = bodyTraits(made.body).notesApart ? undefined : mouthToOpen(document);
  if (part === undefined) return [];
  const off = (body: Body) => {
    const offs = tasks.map((task) => task.off(body));
    const known = offs.filter((each) => each !== undefined);
    return known.length < offs.length || known.length === 0 ? undefined : Math.max(...known);
  };
  return [{ part, notes: made.notes, isLength: false, isMouth: true, off }];
}

/** The middle between the flattest and the sharpest of the notes; undefined where one does not sound. */
function middle(made: Made, body: Body, notes: readonly MadeNote[]): number | undefined {
  const cents = deviationsIn(made, body, notes);
  const known = cents.filter((each) => each !== undefined);
  return known.length < cents.length || known.length === 0 ? undefined : (Math.max(...known) + Math.min(...known)) / 2;
}
