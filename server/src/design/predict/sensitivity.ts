/** Cents for a little more of every number of a design, note by note: the engine behind hovers and bands. */

import { airState } from "../../acoustics/air.js";
import type { AirState } from "../../acoustics/airState.js";
import type { Query, Sounding } from "../../acoustics/resonance.js";
import { LENGTH_STEP, sensitivitySteps } from "../../acoustics/sensitivity.js";
import { drained, type Steps } from "../../acoustics/steps.js";
import { vesselSensitivitySteps } from "../../acoustics/vesselSensitivity.js";
import { type Body, columnFor, isDescribed, roundShape } from "../../instrument/body.js";
import { bodyTraits } from "../../instrument/families/bodyTraits.js";
import type { Path } from "../../instrument/finding.js";
import type { Quantity, ResolvedNumber } from "../../instrument/formula/resolvedNumber.js";
import type { Resolution } from "../../instrument/model.js";
import { pathKey } from "../../instrument/path.js";
import type { Analysis } from "./analysis.js";

/** How the notes follow one number of the design. */
export interface Sensitivity {
  readonly path: Path;
  readonly quantity: Quantity;
  /**
   * Cents by which each fingering rises for one unit more (of the file: a millimetre or an inch, a percent, a degree), in the
   * order of `analysis.fingerings`; undefined where there is no prediction.
   */
  readonly centsPerUnit: readonly (number | undefined)[];
}

/** Where the air's temperature stands, whether the design states it or not. */
export const AIR_TEMPERATURE: Path = ["air", "temperature"];
export const AIR_HUMIDITY: Path = ["air", "humidity"];
export const AIR_CARBON_DIOXIDE: Path = ["air", "carbonDioxide"];
const AIR_PATHS = [AIR_TEMPERATURE, AIR_HUMIDITY, AIR_CARBON_DIOXIDE] as const;

/** Parts of a design whose numbers make what sounds, and what of `print` does. */
const COLUMN_PARTS: ReadonlySet<string> = new Set(["mouth", "bore", "holes", "wall", "parameters", "pipes", "vessel"]);
const COLUMN_PRINTING: ReadonlySet<string> = new Set(["scale", "shrinkage", "holeUndersize"]);

/** m, °C, percent, share: small enough for a difference on one side, far above rounding. */
const STEP = { length: LENGTH_STEP, temperature: 1e-6, percent: 1e-6, number: 1e-7 } as const;

/** A parameter of 0 is changed as if it were this. */
const LEAST_PARAMETER = 1e-3;

export interface SensitivityOptions {
  /**
   * What a change of a number carries along: with `edit` (the default) all that refers to it or is left out because of it, as
   * when the maker changes the text; with `part` nothing, as when one dimension of a print comes out different from the drawing.
   */
  readonly of?: "edit" | "part";
  /** Only these numbers; all there are if left out. */
  readonly paths?: readonly Path[];
}

/**
 * Sensitivities of every predicted note, by the `pathKey` of the number: every number of the design that the air column is made
 * of, and the air's temperature, humidity and carbon dioxide whether written or not. Numbers that cannot change a little without
 * ceasing to make an instrument are left out. Implicit differentiation (acoustics/sensitivity.ts); tests hold it to differences
 * of whole analyses within 1e-4.
 */
export function sensitivitiesOf(
  resolution: Resolution,
  analysis: Analysis,
  options: SensitivityOptions = {},
): ReadonlyMap<string, Sensitivity> {
  return drained(slopeSteps(resolution, analysis, options));
}

/** As `sensitivitiesOf`, step by step. */
export function* slopeSteps(
  resolution: Resolution,
  analysis: Analysis,
  { of = "edit", paths }: SensitivityOptions = {},
): Steps<ReadonlyMap<string, Sensitivity>> {
  if (!isDescribed(analysis.instrument.body)) return new Map();
  const wanted = paths && new Set(paths.map(pathKey));
  const numbers = [...columnNumbers(resolution), ...airNumbers()].filter(
    ({ path }) => wanted?.has(pathKey(path)) ?? true,
  );
  const knobs = numbers.map((number) =>
    number.value === undefined ? airKnob(number, analysis) : bodyKnob(number, resolution, analysis.air, of === "edit"),
  );
  const rows = yield* rowSteps(analysis, knobs);
  return new Map(
    numbers.flatMap(({ path, quantity }, n) => {
      const centsPerUnit = rows.map((row) => row?.[n]);
      if (centsPerUnit.some(Number.isNaN)) return [];
      return [[pathKey(path), { path, quantity, centsPerUnit }] as const];
    }),
  );
}

/** As `Knob` in acoustics/sensitivity.ts, of a whole body. */
export interface BodyKnob {
  readonly change: (step: number) => { readonly body: Body; readonly air: AirState } | undefined;
  readonly step: number;
}

/** Cents per unit of each knob's quantity, a row a fingering, step by step; undefined for those without a prediction. */
export function* rowSteps(
  analysis: Analysis,
  knobs: readonly BodyKnob[],
): Steps<readonly (readonly number[] | undefined)[]> {
  const { fingerings, instrument } = analysis;
  const playable = fingerings.flatMap(({ fingering: { covers, register }, resonance }, index) =>
    covers === undefined || resonance === undefined ? [] : [{ index, query: { covers, register }, resonance }],
  );
  const all: (readonly number[] | undefined)[] = new Array(fingerings.length).fill(undefined);
  const fill = (notes: typeof playable, rows: readonly (readonly number[])[]) => {
    notes.forEach(({ index }, i) => {
      all[index] = rows[i];
    });
  };
  const remembered = knobs.map(remembering);
  const groups = bodyTraits(instrument.body).notesApart ? playable.map((note) => [note]) : [playable];
  for (const notes of groups) fill(notes, yield* stepsTogether(analysis, notes, remembered));
  return all;
}

interface PlayableNote {
  readonly index: number;
  readonly query: Query;
  readonly resonance: Sounding;
}

/** Of notes that one column or vessel sounds. */
function* stepsTogether(
  { air, instrument }: Analysis,
  notes: readonly PlayableNote[],
  knobs: readonly BodyKnob[],
): Steps<readonly (readonly number[])[]> {
  const queries = notes.map(({ query }) => query);
  const shape = roundShape(instrument.body);
  if (shape !== undefined) {
    const perturbed = knobs.map(({ change, step }) => ({
      step,
      change: (by: number) => {
        const changed = change(by);
        const vessel = changed && roundShape(changed.body);
        return changed && vessel && { vessel, air: changed.air };
      },
    }));
    const soundings = notes.map(({ resonance }) => resonance);
    return yield* vesselSensitivitySteps(shape, air, queries, soundings, perturbed);
  }
  const index = notes[0]?.index ?? 0;
  const column = columnFor(instrument.body, index);
  if (column === undefined) return [];
  const perturbed = knobs.map(({ change, step }) => ({
    step,
    change: (by: number) => {
      const changed = change(by);
      const own = changed && columnFor(changed.body, index);
      return changed && own && { column: own, air: changed.air };
    },
  }));
  const frequencies = notes.map(({ resonance }) => resonance.frequency);
  return yield* sensitivitySteps(column, air, queries, frequencies, perturbed);
}

/** Asked for the same change by every pipe, it works it out once. */
function remembering({ change, step }: BodyKnob): BodyKnob {
  const known = new Map<number, ReturnType<BodyKnob["change"]>>();
  return {
    step,
    change: (by) => {
      if (!known.has(by)) known.set(by, change(by));
      return known.get(by);
    },
  };
}

function columnNumbers({ numbers }: Resolution): readonly ResolvedNumber[] {
  return numbers.filter(
    ({ path: [part, name] }) =>
      COLUMN_PARTS.has(String(part)) || (part === "print" && COLUMN_PRINTING.has(String(name))),
  );
}

function airNumbers(): readonly { path: Path; quantity: Quantity; value?: undefined }[] {
  return AIR_PATHS.map((path) => ({ path, quantity: path === AIR_TEMPERATURE ? "temperature" : "percent" }));
}

function bodyKnob(number: ResolvedNumber, resolution: Resolution, air: AirState, follow: boolean): BodyKnob {
  const change = (step: number) => {
    const varied = resolution.varied(number.path, step, follow);
    return varied && { body: varied.body, air };
  };
  return { change, step: stepOf(number, resolution.instrument.unitMillimetres) };
}

/** In the number's own unit. A parameter may be anything: its step is a share of itself. */
function stepOf({ path, quantity, value }: ResolvedNumber, unitMillimetres: number): number {
  if (path[0] === "parameters") return STEP.number * Math.max(Math.abs(value), LEAST_PARAMETER);
  if (quantity === "length") return STEP.length / (unitMillimetres / 1000);
  if (quantity === "volume") return STEP.number * value;
  return quantity === "percent" ? STEP.percent : STEP.number;
}

function airKnob({ path }: { readonly path: Path }, { instrument, temperature }: Analysis): BodyKnob {
  const change = (step: number) => {
    const conditions = { ...instrument.air, temperature };
    if (path === AIR_TEMPERATURE) conditions.temperature += step;
    else if (path === AIR_HUMIDITY) conditions.humidity += step / 100;
    else conditions.carbonDioxide += step / 100;
    return { body: instrument.body, air: airState(conditions) };
  };
  return { change, step: path === AIR_TEMPERATURE ? STEP.temperature : STEP.percent };
}
