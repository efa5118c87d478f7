/** How well an instrument answers: strength and firmness of every note, its octave, the holes' cut-off, and the evenness of it all. */
import { type CutOff, cutOffFrequencies } from "../../acoustics/cutOff.js";
import { impedanceSteps, registerSteps, type Sounding } from "../../acoustics/resonance.js";
import { drained, type Steps } from "../../acoustics/steps.js";
import { columnFor } from "../../instrument/body.js";
import { centsAbove } from "../../music/cents.js";
import type { Analysis } from "./analysis.js";
import { orNoneSteps } from "./orNone.js";

/** The response of one fingering. */
export interface NoteResponse {
  /**
   * How far the resistance left at the resonance lies below the bore's own impedance, dB: the depth of the minimum that the jet
   * plays on, so the strength of the note.
   */
  readonly strength: number;
  /** Quality factor: how firmly the resonance holds the pitch against the breath. */
  readonly quality: number;
  /** Cut-off frequencies of the open holes, from the mouth down. */
  readonly cutOffs: readonly CutOff[];
}

/** Every fingering's response, in the order of the design; undefined where there is no prediction. */
export function responsesOf(analysis: Analysis): readonly (NoteResponse | undefined)[] {
  return drained(responseSteps(analysis));
}

/** As `responsesOf`, step by step; asked again, it has them at hand. */
export function* responseSteps(analysis: Analysis): Steps<readonly (NoteResponse | undefined)[]> {
  const kept = known.get(analysis);
  if (kept !== undefined) return kept;
  const responses: (NoteResponse | undefined)[] = [];
  for (let index = 0; index < analysis.fingerings.length; index++) {
    yield undefined;
    responses.push(responseOf(analysis, index));
  }
  known.set(analysis, responses);
  return responses;
}

const known = new WeakMap<Analysis, readonly (NoteResponse | undefined)[]>();

/** One fingering's response; undefined where there is no prediction. */
export function responseOf(analysis: Analysis, index: number): NoteResponse | undefined {
  const { fingering, resonance } = analysis.fingerings[index] ?? {};
  const covers = fingering?.covers;
  if (covers === undefined || resonance === undefined) return undefined;
  const column = columnFor(analysis.instrument.body, index);
  // In a vessel no row of open holes reflects sound.
  return {
    ...strengthOf(resonance),
    cutOffs: column === undefined ? [] : cutOffFrequencies(column, analysis.air, covers),
  };
}

export function strengthOf({ resistance, quality }: Pick<Sounding, "resistance" | "quality">) {
  return { strength: -DECIBELS * Math.log10(Math.max(resistance, LEAST_RESISTANCE)), quality };
}

/** Of an impedance. */
const DECIBELS = 20;
/** A resonance without any loss would be infinitely strong. */
const LEAST_RESISTANCE = 1e-6;

/**
 * Octave stretch of a fingering: cents by which its second register lies above the octave of its first (of a tube stopped at the
 * foot: above the twelfth); negative is narrow. Undefined where it has no second register.
 */
export function octaveStretch(analysis: Analysis, index: number): number | undefined {
  return drained(octaveStretchSteps(analysis, index));
}

/** As `octaveStretch`, step by step. */
export function* octaveStretchSteps(analysis: Analysis, index: number): Steps<number | undefined> {
  const column = columnFor(analysis.instrument.body, index);
  const covers = analysis.fingerings[index]?.fingering.covers;
  if (column === undefined || covers === undefined) return undefined;
  const [first, second] = (yield* orNoneSteps(() => registerSteps(column, analysis.air, covers, 2))) ?? [];
  if (first === undefined || second === undefined) return undefined;
  return centsAbove(
    second.frequency,
    first.frequency * SECOND_REGISTER[covers.length > column.holes.length ? "stopped" : column.foot],
  );
}

/** Ratio of the second register to the first in an ideal tube. */
const SECOND_REGISTER = { open: 2, stopped: 3 } as const;

/** Over the notes of one register: how alike they are. Standard deviations about the mean. */
export interface Evenness {
  readonly register: number;
  readonly notes: number;
  /** dB. */
  readonly meanStrength: number;
  readonly strengthSpread: number;
  /** Of the lowest cut-off of each note that has one, Hz and its share of the mean; undefined where fewer than two have. */
  readonly meanCutOff: number | undefined;
  readonly cutOffSpread: number | undefined;
}

/** Of each register with two notes or more, lowest first. */
export function evennessOf(analysis: Analysis): readonly Evenness[] {
  const responses = responsesOf(analysis);
  const registers = [...new Set(analysis.fingerings.map(({ fingering }) => fingering.register))].sort((a, b) => a - b);
  return registers.flatMap((register): Evenness[] => {
    const own = responses.filter((_, i) => analysis.fingerings[i]?.fingering.register === register);
    const known = own.filter((response) => response !== undefined);
    if (known.length < 2) return [];
    const strength = spreadOf(known.map((response) => response.strength));
    const lowest = known.flatMap(({ cutOffs }) =>
      cutOffs.length === 0 ? [] : [Math.min(...cutOffs.map(({ frequency }) => frequency))],
    );
    const cutOff = lowest.length < 2 ? undefined : spreadOf(lowest);
    return [
      {
        register,
        notes: known.length,
        meanStrength: strength.mean,
        strengthSpread: strength.deviation,
        meanCutOff: cutOff?.mean,
        cutOffSpread: cutOff && cutOff.deviation / cutOff.mean,
      },
    ];
  });
}

function spreadOf(values: readonly number[]): { readonly mean: number; readonly deviation: number } {
  const mean = values.reduce((sum, value) => sum + value, 0) / values.length;
  return { mean, deviation: Math.sqrt(values.reduce((sum, value) => sum + (value - mean) ** 2, 0) / values.length) };
}

export interface ImpedancePoint {
  /** Hz. */
  readonly frequency: number;
  /** Size, dB re 1 Pa s/m³, and phase, degrees: as measured curves are drawn. */
  readonly decibels: number;
  readonly phase: number;
}

/**
 * Impedance the jet works against with one fingering, between two frequencies in steps of equal ratio: notes lie at its minima.
 * Empty where nothing can be predicted. @param points at least 2
 */
export function impedanceCurve(analysis: Analysis, index: number, range: CurveRange): readonly ImpedancePoint[] {
  return drained(curveSteps(analysis, index, range));
}

interface CurveRange {
  readonly from: number;
  readonly to: number;
  readonly points: number;
}

/** As `impedanceCurve`, step by step. */
export function* curveSteps(
  analysis: Analysis,
  index: number,
  { from, to, points }: CurveRange,
): Steps<readonly ImpedancePoint[]> {
  const column = columnFor(analysis.instrument.body, index);
  const covers = analysis.fingerings[index]?.fingering.covers;
  if (column === undefined || covers === undefined) return [];
  const frequencies = Array.from({ length: points }, (_, i) => from * (to / from) ** (i / (points - 1)));
  const impedances = yield* impedanceSteps(column, analysis.air, covers, frequencies);
  return impedances.map(({ re, im }, i) => ({
    frequency: frequencies[i] as number,
    decibels: DECIBELS * Math.log10(Math.hypot(re, im)),
    phase: (Math.atan2(im, re) * 180) / Math.PI,
  }));
}
