/**
 * The breath of each note: an estimate by the model of the jet (acoustics/jet/, docs/breath.md). It changes no prediction. Pressures are good to a
 * factor of 1.7, slopes to ±35 %, comparisons between notes of one instrument to some 15 %.
 */

import type { AirState } from "../../acoustics/airState.js";
import { soundingOf } from "../../acoustics/answer.js";
import type { Column } from "../../acoustics/column.js";
import { jetFlow, jetOf, jetPressure, jetSpeed, type Resonance } from "../../acoustics/jet/jet.js";
import { fallPressure, jumpPressure } from "../../acoustics/jet/leaving.js";
import { pressureFor, threshold, toneAt } from "../../acoustics/jet/tone.js";
import { mouthEnd } from "../../acoustics/mouth.js";
import type { Sounding } from "../../acoustics/resonance.js";
import { drained, type Steps } from "../../acoustics/steps.js";
import { columnFor } from "../../instrument/body.js";
import { bodyTraits } from "../../instrument/families/bodyTraits.js";
import { median } from "../../sound/median.js";
import type { Analysis } from "./analysis.js";
import { type Blown, inMouth, pastWindway } from "./blown.js";
import { bodySteps } from "./body.js";
import { asMeasured, type MeasuredRise, measuredRise } from "./measuredRise.js";
import { orNone, orNoneSteps } from "./orNone.js";
import { type Blowing, blowingOf } from "./voicing.js";

/** By how much an estimated pressure may be off, as a factor either way, and a slope, as a share. */
export const PRESSURE_FACTOR = 1.7;
export const SLOPE_SHARE = 0.35;
/** The same of the breath at which a note leaves its register. */
export const JUMP_FACTOR = 2;

/** Jet speed over frequency and cut-up on the lowest note at ordinary breath; at 10 the pitch is the column's own. Our own rule. */
const ORDINARY_RATIO = 9;
/** Ordinary breath goes with this power of the frequency where the design does not say. Common practice of voicing, no source. */
const EXPONENT = 1.5;
/** Beyond this many times the ordinary breath the model says nothing about a jump. */
const FARTHEST = 5;
/** Least breath over the ordinary, relative to the median of the register: beyond this a note needs more than its neighbours. */
const NEEDS_MORE = 1.15;
/** At least this many notes make a median. */
const FEWEST = 3;
/** Half the change of breath over which a slope is taken, and for which it is given. */
const STEP = 0.05;
const TENTH = Math.log(1.1);

/** Pressures are those in the player's mouth, Pa. */
export interface NoteBreath {
  /** Least breath that sounds it; in a higher register, that keeps it there. */
  readonly from: number;
  readonly ordinary: number;
  /** Cents for a tenth more than the ordinary breath; undefined where that does not sound it. */
  readonly centsPerTenth: number | undefined;
  /** Breath at which the first register is left; undefined for lips, if it is not left, and if the model does not know. */
  readonly leavesAt: number | undefined;
  /** Breath at which it deviates as much as the lowest note at its ordinary breath; undefined for lips, and if there is none. */
  readonly inTuneAt: number | undefined;
  /** At ordinary breath, m³/s. */
  readonly air: number;
  /** Whether it needs more breath than the other notes of its register. */
  readonly needsMore: boolean;
}

export interface Breath extends Pick<Blowing, "lips" | "assumed" | "isNoJet"> {
  /** One for each fingering, undefined where nothing can be said. */
  readonly notes: readonly (NoteBreath | undefined)[];
  /** Index of the lowest note, from which the ordinary breath of the others goes. */
  readonly lowest: number;
  /** The note measured at two breaths whose rise the slopes follow. */
  readonly rise: MeasuredRise | undefined;
}

/** Undefined for vessels, for an ideal or measured mouth, and where nothing is predicted. */
export function breathOf(analysis: Analysis): Breath | undefined {
  return drained(breathSteps(analysis));
}

/** As `breathOf`, step by step; asked again, it has it at hand. @param rise of the design that this is a change of */
export function* breathSteps(analysis: Analysis, rise?: MeasuredRise): Steps<Breath | undefined> {
  if (known.has(analysis)) return known.get(analysis);
  const breath = yield* orNoneSteps(() => estimate(analysis, rise));
  known.set(analysis, breath);
  return breath;
}

const known = new WeakMap<Analysis, Breath | undefined>();

function* estimate(analysis: Analysis, given?: MeasuredRise): Steps<Breath | undefined> {
  const { air, fingerings } = analysis;
  const usual = fingerings.map((_, index) => blownAt(analysis, index));
  const rise = given ?? measuredRise(analysis, usual);
  const blown = rise === undefined ? usual : usual.map((each) => each && asMeasured(each, rise));
  const heights = blown.map((each) => each?.own.frequency ?? Number.POSITIVE_INFINITY);
  const lowest = heights.indexOf(Math.min(...heights));
  const base = blown[lowest];
  if (base === undefined) return undefined;
  const others = yield* neighbourSteps(analysis);
  const notes: (NoteBreath | undefined)[] = [];
  const ordinary = ordinaryLaw(analysis, base);
  const reference = tuningOf(base, fingerings[lowest]?.cents, ordinary(base));
  for (const [index, each] of blown.entries()) {
    yield undefined;
    const { register } = fingerings[index]?.fingering ?? { register: 1 };
    const cents = fingerings[index]?.cents;
    const wanted = reference === undefined || cents === undefined ? undefined : reference - cents;
    notes.push(each && noteOf(each, others[index], register, ordinary(each), wanted, air));
  }
  const { lips, assumed, isNoJet } = base.blowing;
  return { notes: withNeedsMore(analysis, notes), lowest, lips, assumed, isNoJet, rise };
}

function blownAt({ instrument, fingerings, air }: Analysis, index: number): Blown | undefined {
  const column = bodyTraits(instrument.body).breathIsEstimated ? columnFor(instrument.body, index) : undefined;
  const resonance = fingerings[index]?.resonance;
  const blowing = column && blowingOf(instrument, column);
  if (column === undefined || resonance === undefined || blowing === undefined) return undefined;
  const own = resonanceOf(column, air, resonance);
  return own && { blowing, jet: jetOf(blowing.voicing, air.density), own };
}

/** Undefined without losses: then no breath is too little. */
function resonanceOf(column: Column, { density, soundSpeed }: AirState, sounding: Sounding): Resonance | undefined {
  const { frequency, quality, resistance } = sounding;
  const radius = orNone(() => mouthEnd(column).port.boreRadius);
  if (radius === undefined || !(resistance > 0 && quality > 0)) return undefined;
  return { frequency, quality, resistance: (resistance * density * soundSpeed) / (Math.PI * radius * radius) };
}

/** The register beside each note's: of the first the second, of others the one below. */
function* neighbourSteps(analysis: Analysis): Steps<readonly (Resonance | undefined)[]> {
  const { instrument, fingerings, air } = analysis;
  const queries = fingerings.flatMap(({ fingering: { covers, register }, resonance }, index) =>
    covers === undefined || resonance === undefined
      ? []
      : [{ index, covers, register: register === 1 ? 2 : register - 1 }],
  );
  const answers = yield* bodySteps(instrument.body, air, queries);
  const found: (Resonance | undefined)[] = fingerings.map(() => undefined);
  queries.forEach(({ index }, i) => {
    const column = columnFor(instrument.body, index);
    const answer = answers[i];
    const sounding = answer && soundingOf(answer);
    if (column !== undefined && sounding !== undefined) found[index] = resonanceOf(column, air, sounding);
  });
  return found;
}

/** Ordinary breath of a note, Pa, of the jet: what the lowest note's stated breath leaves it, or by our rule with the note's own jet; and from there up. */
function ordinaryLaw({ instrument: { breath }, air }: Analysis, lowest: Blown): (note: Blown) => number {
  const { frequency } = lowest.own;
  const stated = breath.ordinary === undefined ? undefined : pastWindway(lowest, breath.ordinary, air);
  return ({ jet, own }) =>
    (stated ?? jetPressure(jet, ORDINARY_RATIO * frequency * jet.voicing.cutUp)) *
    (own.frequency / frequency) ** (breath.exponent ?? EXPONENT);
}

/** How far the blown note lies from its target, cents; unknown with lips. */
function tuningOf({ blowing, jet, own }: Blown, cents: number | undefined, pressure: number): number | undefined {
  const tone = blowing.lips ? undefined : toneAt(jet, own, pressure);
  return tone && cents !== undefined ? tone.cents + cents : undefined;
}

/** @param ordinary of the jet, Pa @param wanted cents above the resonance that are as in tune as the lowest note */
function noteOf(
  note: Blown,
  other: Resonance | undefined,
  register: number,
  ordinary: number,
  wanted: number | undefined,
  air: AirState,
): NoteBreath | undefined {
  const { blowing, jet, own } = note;
  const most = FARTHEST * ordinary;
  const from = register > 1 && other !== undefined ? fallPressure(jet, own, other, most) : threshold(jet, own);
  if (from === undefined) return undefined;
  const mayLeave = register === 1 && !blowing.lips;
  const leaves = mayLeave && other !== undefined ? jumpPressure(jet, own, other, most) : undefined;
  const inTune = wanted === undefined ? undefined : pressureFor(jet, own, wanted, [from * JUST, leaves ?? most]);
  const blown = (pressure: number) => inMouth(note, pressure, air);
  const [soft, loud] = [toneAt(jet, own, ordinary * (1 - STEP)), toneAt(jet, own, ordinary * (1 + STEP))];
  const ratio = Math.log(blown(ordinary * (1 + STEP)) / blown(ordinary * (1 - STEP)));
  return {
    from: blown(from),
    ordinary: blown(ordinary),
    centsPerTenth: soft && loud && ((loud.cents - soft.cents) / ratio) * TENTH,
    leavesAt: leaves === undefined ? undefined : blown(leaves),
    inTuneAt: inTune === undefined ? undefined : blown(inTune),
    air: jetFlow(jet, jetSpeed(jet, ordinary)),
    needsMore: false,
  };
}
/** Above the least breath, where the tone is there. */
const JUST = 1.001;

function withNeedsMore({ fingerings }: Analysis, notes: readonly (NoteBreath | undefined)[]) {
  const registerOf = (index: number) => fingerings[index]?.fingering.register;
  return notes.map((note, index) => {
    if (note === undefined) return undefined;
    const shares = notes.flatMap((other, i) =>
      other !== undefined && registerOf(i) === registerOf(index) ? other.from / other.ordinary : [],
    );
    if (shares.length < FEWEST) return note;
    return { ...note, needsMore: note.from / note.ordinary > NEEDS_MORE * median(shares) };
  });
}
