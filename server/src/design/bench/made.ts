/** An instrument already made: the model with its mouth fitted to the measured notes, and how far each note lies from that. */
import { airState } from "../../acoustics/air.js";
import type { AirState } from "../../acoustics/airState.js";
import { drained } from "../../acoustics/steps.js";
import type { Body } from "../../instrument/body.js";
import { centsAbove } from "../../music/cents.js";
import type { Note } from "../../music/note.js";
import { frequencyOf, tunerZero } from "../../music/tuning.js";
import { type MeasuredQuery, measuredQuerySteps } from "../calibrate/measuredQueries.js";
import { mouthUnknown } from "../calibrate/unknowns.js";
import { secant } from "../fix/solve.js";
import type { Analysis } from "../predict/analysis.js";
import { type IndexedQuery, soundingsOf } from "../predict/body.js";
import { governedFingerings } from "../predict/governing.js";
import { withMouthLengths } from "../predict/mouthKnob.js";
import { orNone } from "../predict/orNone.js";

export interface MadeNote {
  readonly query: IndexedQuery;
  readonly name: string;
  /** Hz: the note itself, without what the drawing leaves for the bench. */
  readonly target: number;
  /** Hz at which a tuner shows nothing. */
  readonly zero: number;
  /** Cents of the made thing's note above the model's. */
  readonly offset: number;
  /** Standard uncertainty of a measured note, cents; undefined where it was not measured. */
  readonly uncertainty: number | undefined;
  /** The same for every note, from what is known about it. */
  readonly unsure: number;
}

export interface Made {
  readonly analysis: Analysis;
  readonly body: Body;
  /** By fingering that can be played and has a note. */
  readonly notes: readonly MadeNote[];
  /** °C at which it should be in tune. */
  readonly temperature: number;
  /** °C at which the notes were measured, if all of them the same, else undefined. */
  readonly measuredAt: number | undefined;
}

/** Cents within which the mouth is right, and m of the first try. */
const CLOSE_ENOUGH = 0.1;
const TRIAL = 1e-3;
/** Cents, standard: a note none of whose hole's notes was measured, the mouth fitted to the others. Common practice, no source. */
const UNMEASURED = 10;
/** Cents, standard: how far a note deviates from the model relative to another register of the same hole. Our own estimate. */
const OTHER_REGISTER = 4;

export function madeOf(analysis: Analysis): Made {
  const { instrument, temperature } = analysis;
  const played = drained(measuredQuerySteps(analysis)).flatMap((query) => query ?? []);
  const body = withFittedMouth(analysis, played);
  const measuredOf = new Map<number, { readonly offsets: number[]; uncertainty: number }>();
  for (const query of played) {
    const offset = offsetIn(analysis, body, query);
    if (offset === undefined) continue;
    const known = measuredOf.get(query.index) ?? { offsets: [], uncertainty: query.measured.uncertainty };
    known.offsets.push(offset);
    measuredOf.set(query.index, known);
  }
  const kin = governedFingerings(analysis).map(({ fingerings }) => fingerings);
  const notes = analysis.fingerings.flatMap(({ fingering, predictedHz }, index): MadeNote[] => {
    const { target, covers, register } = fingering;
    if (target === undefined || covers === undefined || predictedHz === undefined) return [];
    return [{ query: { index, covers, register }, ...pitchesOf(target, analysis), ...knownOf(index, measuredOf, kin) }];
  });
  const degrees = new Set(instrument.measured.map((note) => note.temperature ?? temperature));
  const [degree] = degrees;
  return { analysis, body, notes, temperature, measuredAt: degrees.size === 1 ? degree : undefined };
}

interface Measurements {
  readonly offsets: readonly number[];
  /** Of one of them, cents. */
  readonly uncertainty: number;
}

/** What is known about a note: measured, or from another register of the hole that decides it, which that hole puts off as well. */
function knownOf(
  index: number,
  measured: ReadonlyMap<number, Measurements>,
  kin: readonly (readonly number[])[],
): Pick<MadeNote, "offset" | "uncertainty" | "unsure"> {
  const own = measured.get(index);
  if (own !== undefined) {
    const uncertainty = own.uncertainty / Math.sqrt(own.offsets.length);
    return { offset: mean(own.offsets), uncertainty, unsure: uncertainty };
  }
  const others = (kin.find((each) => each.includes(index)) ?? []).flatMap((each) => measured.get(each) ?? []);
  if (others.length === 0) return { offset: 0, uncertainty: undefined, unsure: UNMEASURED };
  const unsure = Math.hypot(OTHER_REGISTER, Math.max(...others.map(({ uncertainty }) => uncertainty)));
  return { offset: mean(others.flatMap(({ offsets }) => offsets)), uncertainty: undefined, unsure };
}

function pitchesOf(target: Note, { instrument: { tuning } }: Analysis) {
  return {
    name: target.name,
    target: frequencyOf(target, tuning),
    zero: tunerZero(target, tuning.pitchStandard),
  };
}

/** The mouth by which the measured notes agree with the model on average; the model's where none was measured, or none does. */
function withFittedMouth(analysis: Analysis, played: readonly MeasuredQuery[]): Body {
  const { instrument } = analysis;
  const unknown = mouthUnknown(analysis);
  if (unknown === undefined || played.length === 0) return instrument.body;
  const metres = instrument.printedUnit;
  const [now, least, greatest] = [unknown.before, unknown.least, unknown.greatest].map((value) => value * metres) as [
    number,
    number,
    number,
  ];
  const bodyWith = (length: number) => withMouthLengths(instrument.body, () => length);
  const fitted = secant(
    (length) => {
      const offsets = played.flatMap((query) => offsetIn(analysis, bodyWith(length), query) ?? []);
      return offsets.length === 0 ? undefined : mean(offsets);
    },
    now,
    now + TRIAL,
    { least, greatest, tolerance: CLOSE_ENOUGH },
  );
  return fitted === undefined ? instrument.body : bodyWith(fitted);
}

/** Cents of a measured note above what a body sounds in the air it was measured in. */
function offsetIn(analysis: Analysis, body: Body, query: MeasuredQuery): number | undefined {
  const { hz, temperature } = query.measured;
  const air = airAt(analysis, temperature ?? analysis.temperature);
  const sounds = orNone(() => soundingsOf(body, air, [query]))?.[0]?.frequency;
  return sounds === undefined ? undefined : centsAbove(hz, sounds);
}

export function airAt({ instrument }: Analysis, temperature: number): AirState {
  return airState({ ...instrument.air, temperature });
}

/** Cents of a note above what its target is, in a body and in the air at `temperature`, °C; undefined where it does not sound. */
export function deviationsIn(
  { analysis, temperature }: Made,
  body: Body,
  notes: readonly MadeNote[],
): readonly (number | undefined)[] {
  return soundsIn(analysis, body, notes, temperature).map((hz, i) => {
    const note = notes[i] as MadeNote;
    return hz === undefined ? undefined : centsAbove(hz, note.target) + note.offset;
  });
}

/** What a tuner on the design's A4 shows of each, in the workshop's air. */
export function readingsIn(
  { analysis }: Made,
  body: Body,
  notes: readonly MadeNote[],
  workshop: number,
): readonly (number | undefined)[] {
  return soundsIn(analysis, body, notes, workshop).map((hz, i) => {
    const note = notes[i] as MadeNote;
    return hz === undefined ? undefined : centsAbove(hz, note.zero) + note.offset;
  });
}

/** What it shows in the workshop for a note that is right at the temperature it is made for. */
export function rightReadingsIn(
  made: Made,
  body: Body,
  notes: readonly MadeNote[],
  workshop: number,
): readonly (number | undefined)[] {
  const here = readingsIn(made, body, notes, workshop);
  const there = deviationsIn(made, body, notes);
  return here.map((reading, i) => {
    const off = there[i];
    return reading === undefined || off === undefined ? undefined : reading - off;
  });
}

function soundsIn(analysis: Analysis, body: Body, notes: readonly MadeNote[], temperature: number) {
  const queries = notes.map(({ query }) => query);
  const found = orNone(() => soundingsOf(body, airAt(analysis, temperature), queries)) ?? [];
  return notes.map((_, i) => found[i]?.frequency);
}

function mean(values: readonly number[]): number {
  return values.reduce((sum, each) => sum + each, 0) / values.length;
}
