/**
 * For a note, the fingerings of an instrument that come closest: cross-fingerings and half holes included, in any register. They
 * are ranked by how far off they are, how strong, and how many fingers move from the note beside it.
 */

import type { Cover } from "../../acoustics/column.js";
import type { Steps } from "../../acoustics/steps.js";
import { roundShape, sharedColumn } from "../../instrument/body.js";
import { hasHoles } from "../../instrument/families/bodyTraits.js";
import { drawnPattern } from "../../instrument/fingerings.js";
import { centsAbove } from "../../music/cents.js";
import type { Note } from "../../music/note.js";
import { frequencyOf } from "../../music/tuning.js";
import type { Analysis } from "../predict/analysis.js";
import { strengthOf } from "../predict/response.js";
import { halvesIn, patternSteps } from "./patterns.js";
import { ColumnSounds, type Glimpse, type Sound, type Sounds, VesselSounds } from "./sounds.js";

export interface FoundFingering {
  readonly covers: readonly Cover[];
  /** As drawn, one sign a hole. */
  readonly pattern: string;
  readonly register: number;
  readonly hz: number;
  /** Above the note; negative is flat. */
  readonly cents: number;
  /** dB, and quality factor, as of every note (`predict/response.ts`). */
  readonly strength: number;
  readonly quality: number;
  /** Fingers that move from the fingering of the note beside it in the design, below or above. */
  readonly moves: number;
  /** Whether the design has this fingering for this note. */
  readonly isInDesign: boolean;
}

export interface NoteFingerings {
  readonly note: Note;
  readonly targetHz: number;
  /** The best first; empty where none is within half a semitone. */
  readonly fingerings: readonly FoundFingering[];
}

export interface FindOptions {
  /** How many for a note, at most. */
  readonly most: number;
  readonly halfHoles: boolean;
}

/** Candidates evaluated closely for each note; the first estimate is within a few cents. */
const LOOKED_AT = 12;

/**
 * Penalties of a fingering besides its deviation, in cents, so that all can be added. Our own weights: a finger that moves is a
 * nuisance, a half-closed hole has an uncertain pitch, and a note weaker than usual ones (18 dB, see `weakNote`) is hard to play.
 */
const PER_MOVE = 2;
const PER_HALF = 5;
const PER_DECIBEL = 2;
const USUAL_STRENGTH = 18;

/** Undefined where the instrument has no holes to finger, or is not fully described. Throws a RangeError if its numbers are impossible. */
export function* findFingerings(
  analysis: Analysis,
  notes: readonly Note[],
  { most, halfHoles }: FindOptions,
): Steps<readonly NoteFingerings[] | undefined> {
  const sounds = yield* soundsOf(analysis, halfHoles);
  if (sounds === undefined) return undefined;
  const found: NoteFingerings[] = [];
  for (const note of notes) {
    const targetHz = frequencyOf(note, analysis.instrument.tuning);
    const beside = besideNote(analysis, targetHz, note);
    const costs = (covers: readonly Cover[], cents: number, strength: number) =>
      Math.abs(cents) +
      PER_MOVE * movesBetween(covers, beside) +
      PER_HALF * halvesIn(covers) +
      PER_DECIBEL * Math.max(0, USUAL_STRENGTH - strength);
    const best = (glimpses: readonly Glimpse[]) =>
      byCost(glimpses, ({ covers, cents, resistance }) =>
        costs(covers, cents, strengthOf({ resistance, quality: 0 }).strength),
      ).slice(0, LOOKED_AT);
    const near = (yield* sounds.near(targetHz, best)).map((sound) =>
      foundFrom(sound, targetHz, note, beside, analysis),
    );
    const fingerings = byCost(near, ({ covers, cents, strength }) => costs(covers, cents, strength)).slice(0, most);
    found.push({ note, targetHz, fingerings });
  }
  return found;
}

function* soundsOf({ instrument, air }: Analysis, halfHoles: boolean): Steps<Sounds | undefined> {
  const { body, holes } = instrument;
  if (!hasHoles(body)) return undefined;
  const known = instrument.fingerings.flatMap(({ covers }) => (covers === undefined ? [] : [covers]));
  const patterns = yield* patternSteps(holes.length, known, halfHoles);
  const shape = roundShape(body);
  if (shape !== undefined) return new VesselSounds(shape, air, patterns);
  const column = sharedColumn(body);
  return column && new ColumnSounds(column, air, patterns);
}

function foundFrom(
  { covers, register, sounding }: Sound,
  targetHz: number,
  note: Note,
  beside: readonly (readonly Cover[])[],
  { instrument }: Analysis,
): FoundFingering {
  const pattern = drawnPattern(covers);
  return {
    covers,
    pattern,
    register,
    hz: sounding.frequency,
    cents: centsAbove(sounding.frequency, targetHz),
    ...strengthOf(sounding),
    moves: movesBetween(covers, beside),
    isInDesign: instrument.fingerings.some(
      (fingering) =>
        fingering.target?.midi === note.midi && fingering.register === register && fingering.pattern === pattern,
    ),
  };
}

/** The design's fingerings of the next notes below and above. */
function besideNote({ fingerings }: Analysis, targetHz: number, note: Note): readonly (readonly Cover[])[] {
  const others = fingerings
    .flatMap(({ fingering: { target, covers }, targetHz: hz }) =>
      target?.midi === note.midi || covers === undefined || hz === undefined ? [] : [{ covers, hz }],
    )
    .sort((a, b) => a.hz - b.hz);
  const below = others.findLast(({ hz }) => hz < targetHz);
  const above = others.find(({ hz }) => hz > targetHz);
  return [below, above].flatMap((each) => (each === undefined ? [] : [each.covers]));
}

/** From the nearer neighbouring note; none where there is no other. */
function movesBetween(covers: readonly Cover[], beside: readonly (readonly Cover[])[]): number {
  const moves = beside.map((other) => covers.filter((cover, i) => cover !== other[i]).length);
  return moves.length === 0 ? 0 : Math.min(...moves);
}

function byCost<T>(all: readonly T[], cost: (each: T) => number): readonly T[] {
  return all
    .map((each) => ({ each, cost: cost(each) }))
    .sort((a, b) => a.cost - b.cost)
    .map(({ each }) => each);
}
