/**
 * How sure a prediction is, in cents: how much the mouth, the shape of a cavity of which only the volume is known, the air, the print and a second resonance can each change it, and which of them most. Every
 * source moves all notes at once in its own proportions (a wider window sharpens high notes more); its mean over the notes moves
 * the instrument as a whole, the rest the notes against each other. Sources are independent: their squares add up.
 */

import type { Mouth } from "../../acoustics/column.js";
import { LENGTH_STEP } from "../../acoustics/sensitivity.js";
import { drained, type Steps } from "../../acoustics/steps.js";
import { offByWidth } from "../../acoustics/vesselRanges.js";
import { type Body, roundShape } from "../../instrument/body.js";
import type { Path } from "../../instrument/finding.js";
import type { ResolvedNumber } from "../../instrument/formula/resolvedNumber.js";
import type { Resolution } from "../../instrument/model.js";
import { pathKey } from "../../instrument/path.js";
import type { Analysis } from "./analysis.js";
import { scaledBody } from "./body.js";
import { otherShapeSteps } from "./cavityShape.js";
import { mouthOf, withMouthLengths } from "./mouthKnob.js";
import { rivalOf } from "./rival.js";
import {
  AIR_CARBON_DIOXIDE,
  AIR_HUMIDITY,
  AIR_TEMPERATURE,
  type BodyKnob,
  rowSteps,
  slopeSteps,
} from "./sensitivity.js";

export type BandSource = "mouth" | "shape" | "air" | "print" | "rival";

/** How far below and above the prediction, cents, both counted from 0. */
export interface Reach {
  readonly below: number;
  readonly above: number;
}

/** All in cents, to be read with ± where no sides are given. */
export interface Band {
  /** Of the wider side. */
  readonly cents: number;
  readonly reach: Reach;
  /** The source with the largest share. */
  readonly mostly: BandSource | undefined;
  /** What moves all notes alike, the same for every note. */
  readonly together: number;
  readonly togetherReach: Reach;
  /** What moves this note against the others. */
  readonly against: number;
}

/**
 * How far the mouth may lie from its model, cents: what whole instruments of known length are off it (docs/mouth.md), and what players
 * and breaths do. Window: recorders rise 20 to 40 cents from soft to loud (from the literature of recorder acoustics, from memory), of
 * which the prediction is the middle; organ pipes sound above their resonance, and a labium that is not stated may be sharper by 15 cents
 * or more upright by 25. Embouchure hole: +20 to −25 between the passive
 * resonance and the played note, by air and coverage (J. W. Coltman, J. Acoust. Soc. Am. 40 (1966) 99, abstract). Notch: a millimetre of
 * lip is 10 to 30. Rim: of blowing alone 20 (Y. Ando, J. Acoust. Soc. Jpn (E) 7 (1986) 99, abstract); of an oblique rim no length is known.
 */
const MOUTH_SPREAD: Record<Exclude<Mouth["kind"], "ideal" | "correction">, Reach> = {
  window: { below: 20, above: 35 },
  embouchure: { below: 25, above: 25 },
  notch: { below: 35, above: 35 },
  rim: { below: 45, above: 45 },
};
/** A pan pipe's rim, whose published lengths scatter by 10. */
const PIPES_SPREAD = 20;
/**
 * Players bend a vessel by a semitone and more with their breath and tune by it (common knowledge of vessel flutes, from memory); what is
 * predicted is one breath in the middle of that.
 */
const VESSEL_SPREAD = 40;
/** A measured mouth, played again on another day: a listener's just noticeable difference. Common practice, no source. */
const CALIBRATED_SPREAD = 5;
/** The breath bends a vessel twice as far as a duct flute, on another day too. Our own estimate, no source. */
const CALIBRATED_VESSEL_SPREAD = 2 * CALIBRATED_SPREAD;

/** Of the bodies whose spread does not go by their mouth. */
const OWN_SPREADS: Readonly<
  Record<Body["kind"], { readonly modelled: number; readonly calibrated: number } | undefined>
> = {
  tube: undefined,
  pipes: { modelled: PIPES_SPREAD, calibrated: CALIBRATED_SPREAD },
  vessel: { modelled: VESSEL_SPREAD, calibrated: CALIBRATED_VESSEL_SPREAD },
};

/** °C: a thermometer in a played tube, and a room nobody has measured. Common practice, no source. */
const TEMPERATURE_SPREAD = { stated: 1, unstated: 2 } as const;
/** Percent of relative humidity: breath is damp; a room may be anything. Common practice, no source. */
const HUMIDITY_SPREAD = { damp: 10, room: 25 } as const;
/** From here on the design assumes damp air, and breath. Shares. */
const DAMP = 0.9;
const BREATH = 0.01;
/** Percent by volume: exhaled air has up to 4, half of which is left in a tube (acoustics of breath: 2.5 to 4 are published). */
const CARBON_DIOXIDE_SPREAD = { breath: 0.75, room: 1.5 } as const;

/** Percent: PLA shrinks 0.1 to 0.3, PETG 0.2 to 0.4 (practical guides to filament printing). */
const SHRINKAGE_SPREAD = 0.1;
/** Places and lengths along the axis come out truer than diameters: share of the print's tolerance. Common practice, no source. */
const PLACE_SHARE = 0.5;

interface Source {
  readonly kind: BandSource;
  /** Cents for each fingering, with sign: half of what lies between the sides. */
  readonly cents: readonly (number | undefined)[];
  /** How far the sides reach, as shares of `cents`; both 1 where it is not said. */
  readonly sides?: Reach;
}

const BOTH_SIDES: Reach = { below: 1, above: 1 };

/** Bands of every fingering, in the order of the design, all finite; undefined where there is no prediction, or no slope of it. */
export function bandsOf(resolution: Resolution, analysis: Analysis): readonly (Band | undefined)[] {
  return drained(bandSteps(resolution, analysis));
}

/** As `bandsOf`, step by step; asked again of what is still the same, it has them at hand. */
export function* bandSteps(resolution: Resolution, analysis: Analysis): Steps<readonly (Band | undefined)[]> {
  const kept = known.get(resolution);
  if (kept?.analysis === analysis) return kept.bands;
  const bands = yield* workedOut(resolution, analysis);
  known.set(resolution, { analysis, bands });
  return bands;
}

/** Each hover over a note and each look at the drawing asks for all of them. */
const known = new WeakMap<Resolution, { readonly analysis: Analysis; readonly bands: readonly (Band | undefined)[] }>();

function* workedOut(resolution: Resolution, analysis: Analysis): Steps<readonly (Band | undefined)[]> {
  const sources = [
    ...(yield* wholeSources(analysis)),
    ...(yield* shapeSources(analysis)),
    ...(yield* airSources(resolution, analysis)),
    ...(yield* printSources(resolution, analysis)),
    rivalSource(analysis),
  ].map((source) => ({ ...source, mean: source.kind === "rival" ? 0 : meanOf(source.cents) }));
  const togetherReach = reachOf(sources, ({ mean }) => mean);
  const together = Math.max(togetherReach.below, togetherReach.above);
  return analysis.fingerings.map(({ predictedHz }, i) => {
    if (predictedHz === undefined) return undefined;
    const reach = reachOf(sources, (source) => source.cents[i] ?? 0);
    const cents = Math.max(reach.below, reach.above);
    const against = Math.hypot(...sources.map((source) => (source.cents[i] ?? 0) - source.mean));
    // No band for numbers at the edge of what can be calculated.
    if (![cents, against, together].every(Number.isFinite)) return undefined;
    return { cents, reach, mostly: largest(sources, i), together, togetherReach, against };
  });
}

/** Squares add up on each side. */
function reachOf<S extends Source>(sources: readonly S[], cents: (source: S) => number): Reach {
  const side = (name: keyof Reach) =>
    Math.hypot(...sources.map((source) => cents(source) * (source.sides ?? BOTH_SIDES)[name]));
  return { below: side("below"), above: side("above") };
}

/** The mouth, and the size of the whole print. */
function* wholeSources(analysis: Analysis): Steps<readonly Source[]> {
  const { air, instrument } = analysis;
  const mouth: BodyKnob = {
    change: (step) => ({ body: withMouthLengths(instrument.body, (length) => length + step), air }),
    step: LENGTH_STEP,
  };
  const size: BodyKnob = {
    change: (step) => ({ body: scaledBody(instrument.body, 1 - step / 100), air }),
    step: SIZE_STEP,
  };
  const rows = yield* rowSteps(analysis, [mouth, size]);
  const perMetre = rows.map((row) => row?.[0]);
  const perPercent = rows.map((row) => row?.[1]);
  const { below, above } = mouthSpread(analysis);
  const half = (below + above) / 2;
  const mean = meanOf(perMetre);
  const sides = { below: below / half, above: above / half };
  return [
    // Scaled so that the notes move by the spread on average; an ideal mouth has no length that could.
    ...(mean === 0 ? [] : [{ ...times("mouth", perMetre, half / mean), sides }]),
    times("print", perPercent, SHRINKAGE_SPREAD),
  ];
}

/** Percent. */
const SIZE_STEP = 1e-6;

function mouthSpread({ instrument: { body, calibrated } }: Analysis): Reach {
  const kind = mouthOf(body)?.kind;
  const alike = (cents: number): Reach => ({ below: cents, above: cents });
  if (kind === undefined || kind === "ideal") return alike(0);
  const own = OWN_SPREADS[body.kind];
  if (calibrated || kind === "correction") return alike(own?.calibrated ?? CALIBRATED_SPREAD);
  return own === undefined ? MOUTH_SPREAD[kind] : alike(own.modelled);
}

/** A measured mouth has taken up what the shape does to all notes alike. */
function* shapeSources({ instrument, air, fingerings }: Analysis): Steps<readonly Source[]> {
  const off = yield* otherShapeSteps(instrument.body, air, fingerings);
  const known = instrument.calibrated ? meanOf(off) : 0;
  const shape = roundShape(instrument.body);
  const wide = fingerings.map(({ fingering: { covers } }) => shape && covers && offByWidth(shape, covers));
  return [
    { kind: "shape", cents: off.map((cents) => cents && cents - known) },
    { kind: "shape", cents: wide },
  ];
}

function airSources(resolution: Resolution, analysis: Analysis): Steps<readonly Source[]> {
  const { temperature, humidity, carbonDioxide } = analysis.instrument.air;
  const spreads: readonly (readonly [Path, number])[] = [
    [AIR_TEMPERATURE, temperature === undefined ? TEMPERATURE_SPREAD.unstated : TEMPERATURE_SPREAD.stated],
    [AIR_HUMIDITY, humidity >= DAMP ? HUMIDITY_SPREAD.damp : HUMIDITY_SPREAD.room],
    [AIR_CARBON_DIOXIDE, carbonDioxide >= BREATH ? CARBON_DIOXIDE_SPREAD.breath : CARBON_DIOXIDE_SPREAD.room],
  ];
  return sourcesOf("air", resolution, analysis, spreads);
}

/** Where a second resonance may sound instead, the band reaches to it. It moves no other note. */
function rivalSource({ fingerings }: Analysis): Source {
  return { kind: "rival", cents: fingerings.map((prediction) => rivalOf(prediction)?.cents) };
}

/** Each dimension by itself: one hole comes out wide, another narrow. */
function printSources(resolution: Resolution, analysis: Analysis): Steps<readonly Source[]> {
  const { printTolerance, printedUnit } = analysis.instrument;
  const tolerance = printTolerance / printedUnit;
  const spreads = resolution.numbers
    .filter((number) => isPrinted(number) && !isSecondOfStep(resolution, number))
    .map(({ path }) => [path, tolerance * (isAlong(path) ? PLACE_SHARE : 1)] as const);
  return sourcesOf("print", resolution, analysis, spreads);
}

/** The two stations of a step are one edge of the print: it counts once. */
function isSecondOfStep(
  { draft: { bore } }: Resolution,
  { path: [part, index, name], value }: ResolvedNumber,
): boolean {
  return part === "bore" && name === "at" && bore?.[Number(index) - 1]?.at === value;
}

/** Lengths along the axis. */
const ALONG: ReadonlySet<string> = new Set(["at", "stopper"]);
function isAlong([part, ...rest]: Path): boolean {
  const name = String(rest.at(-1));
  return ALONG.has(name) || (name === "length" && (part === "pipes" || part === "vessel"));
}

/** Lengths of the mouth that stand for what measuring it found: they belong to the mouth's own spread. */
const NOT_PRINTED: ReadonlySet<string> = new Set(["correction", "extra"]);

function isPrinted({ path: [part, name], quantity }: ResolvedNumber): boolean {
  if (quantity !== "length") return false;
  return (
    ["wall", "bore", "holes", "pipes", "vessel"].includes(String(part)) ||
    (part === "mouth" && !NOT_PRINTED.has(String(name)))
  );
}

function* sourcesOf(
  kind: BandSource,
  resolution: Resolution,
  analysis: Analysis,
  spreads: readonly (readonly [Path, number])[],
): Steps<readonly Source[]> {
  const found = yield* slopeSteps(resolution, analysis, { of: "part", paths: spreads.map(([path]) => path) });
  return spreads.flatMap(([path, spread]) => {
    const own = found.get(pathKey(path));
    return own === undefined ? [] : [times(kind, own.centsPerUnit, spread)];
  });
}

function times(kind: BandSource, cents: readonly (number | undefined)[], factor: number): Source {
  return { kind, cents: cents.map((value) => value && value * factor) };
}

function meanOf(values: readonly (number | undefined)[]): number {
  const known = values.filter((value) => value !== undefined);
  return known.length === 0 ? 0 : known.reduce((sum, value) => sum + value, 0) / known.length;
}

function largest(sources: readonly Source[], index: number): BandSource | undefined {
  const shares = new Map<BandSource, number>();
  for (const { kind, cents } of sources) shares.set(kind, (shares.get(kind) ?? 0) + (cents[index] ?? 0) ** 2);
  const [first] = [...shares].sort(([, a], [, b]) => b - a);
  return first?.[0];
}
