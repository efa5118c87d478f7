/** Notes that are all off by nearly the same amount: then the size of the instrument is wrong, or its key, and no hole. */
import type { Steps } from "../../acoustics/steps.js";
import type { Resolution } from "../../instrument/model.js";
import { ratioOfCents } from "../../music/cents.js";
import { type Note, noteFromMidi } from "../../music/note.js";
import { median } from "../../sound/median.js";
import type { Analysis } from "../predict/analysis.js";
import { sizeFactorSteps } from "./sizeFactor.js";

/** From half a semitone on, another key is closer than the stated one; below it, only the mouth may be unknown. Cents. */
const LEAST_SHIFT = 50;
/**
 * Notes within this of the common shift share it, cents. Half of the least shift: each of them is farther from its note than from
 * the others, so that a change of size brings every one of them nearer. Scatter of a played design is well below (the examples: 15).
 */
const GREATEST_SCATTER = LEAST_SHIFT / 2;
/** The farther all notes are off, the more they scatter as well: a share of the shift. Our own limit. */
const SCATTER_SHARE = 0.25;
/** Fewer notes than this have nothing in common. */
const LEAST_NOTES = 3;
/** Share of the notes that have it in common; the rest are reported one by one. Our own limit. */
const LEAST_SHARE = 3 / 4;

export interface CommonShift {
  /** Median deviation of the notes; negative is flat. */
  readonly cents: number;
  /** Indices of the fingerings that share it. */
  readonly fingerings: readonly number[];
  /** How many notes there are in all. */
  readonly count: number;
}

/** Undefined where the notes are near enough to their places, or off by different amounts. */
export function commonShift({ fingerings }: Analysis): CommonShift | undefined {
  const notes = fingerings.flatMap(({ cents }, index) => (cents === undefined ? [] : [{ cents, index }]));
  const shift = median(notes.map(({ cents }) => cents));
  if (notes.length < LEAST_NOTES || Math.abs(shift) <= LEAST_SHIFT) return undefined;
  const near = notes.filter(
    ({ cents }) => Math.abs(cents - shift) <= Math.max(GREATEST_SCATTER, SCATTER_SHARE * Math.abs(shift)),
  );
  if (near.length < LEAST_SHARE * notes.length) return undefined;
  return { cents: shift, fingerings: near.map(({ index }) => index), count: notes.length };
}

/** How far the notes of a shift lie from it at most, cents; undefined where a change of size leaves no more than it may. */
export function scatterBeyond({ fingerings }: Analysis, shift: CommonShift): number | undefined {
  const scatter = Math.max(
    ...shift.fingerings.map((i) => Math.abs((fingerings[i]?.cents ?? shift.cents) - shift.cents)),
  );
  return scatter > GREATEST_SCATTER ? scatter : undefined;
}

/** The analysis with every target moved by `cents`: deviations in it are relative to the other notes. */
export function besideShift(analysis: Analysis, cents: number): Analysis {
  const ratio = ratioOfCents(cents);
  const fingerings = analysis.fingerings.map((prediction) => ({
    ...prediction,
    targetHz: prediction.targetHz && prediction.targetHz * ratio,
    cents: prediction.cents === undefined ? undefined : prediction.cents - cents,
  }));
  return { ...analysis, fingerings };
}

/** The factor on every dimension by which the notes of the shift come right on average, step by step. */
export function factorSteps(resolution: Resolution, analysis: Analysis, { fingerings }: CommonShift): Steps<number> {
  return sizeFactorSteps(resolution, analysis, { among: new Set(fingerings) });
}

/** The key that the instrument sounds in; undefined where it is nowhere near one, or the design states none to count from. */
export function soundingKey({ instrument: { key } }: Analysis, { cents }: CommonShift): Note | undefined {
  const semitones = Math.round(cents / SEMITONE);
  if (key === undefined || Math.abs(cents - semitones * SEMITONE) > GREATEST_SCATTER) return undefined;
  return noteFromMidi(key.midi + semitones);
}

/** Cents. */
const SEMITONE = 100;
