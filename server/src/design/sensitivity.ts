/** Cents for a little more of every number of a design, note by note: the engine behind hovers and bands. */
import { airState } from "../acoustics/air.js";
import type { AirState } from "../acoustics/airState.js";
import type { Column } from "../acoustics/column.js";
import { type Knob, LENGTH_STEP, sensitivities } from "../acoustics/sensitivity.js";
import { layOut } from "../acoustics/skeleton.js";
import type { Path } from "../instrument/finding.js";
import type { Quantity, Resolution, ResolvedNumber } from "../instrument/model.js";
import { pathKey } from "../instrument/path.js";
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

/** Parts of a design whose numbers make the air column, and what of `print` does. */
const COLUMN_PARTS: ReadonlySet<string> = new Set(["mouth", "bore", "holes", "wall", "parameters"]);
const COLUMN_PRINTING: ReadonlySet<string> = new Set(["scale", "shrinkage", "holeUndersize"]);

/** m, °C, percent, share: small enough for a difference on one side, far above rounding. */
const STEP = { length: LENGTH_STEP, temperature: 1e-6, percent: 1e-6, number: 1e-7 } as const;

/** A parameter of 0 is changed as if it were this. */
const LEAST_PARAMETER = 1e-3;

export interface SensitivityOptions {
  /**
   * What a change of a number carries along: with `edit` (the default) all that refers to it or is left out because of it, as
   * when the maker changes the text; with `part` nothing, as when one dimension of a print comes out otherwise than drawn.
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
  { of = "edit", paths }: SensitivityOptions = {},
): ReadonlyMap<string, Sensitivity> {
  const { column } = analysis.instrument;
  if (column === undefined) return new Map();
  const wanted = paths && new Set(paths.map(pathKey));
  const numbers = [...columnNumbers(resolution), ...airNumbers()].filter(
    ({ path }) => wanted?.has(pathKey(path)) ?? true,
  );
  const knobs = numbers.map((number) =>
    number.value === undefined
      ? airKnob(number, analysis, column)
      : columnKnob(number, resolution, analysis.air, of === "edit"),
  );
  const rows = rowsOf(analysis, column, knobs);
  return new Map(
    numbers.flatMap(({ path, quantity }, n) => {
      const centsPerUnit = rows.map((row) => row?.[n]);
      if (centsPerUnit.some(Number.isNaN)) return [];
      return [[pathKey(path), { path, quantity, centsPerUnit }] as const];
    }),
  );
}

/** Cents per unit of each knob's quantity, a row a fingering; undefined for those without a prediction. */
export function rowsOf(
  { fingerings, air }: Analysis,
  column: Column,
  knobs: readonly Knob[],
): readonly (readonly number[] | undefined)[] {
  const playable = fingerings.flatMap(({ fingering: { covers, register }, predictedHz }, index) =>
    covers === undefined || predictedHz === undefined ? [] : [{ index, query: { covers, register }, predictedHz }],
  );
  const rows = sensitivities(
    column,
    air,
    playable.map(({ query }) => query),
    playable.map(({ predictedHz }) => predictedHz),
    knobs,
  );
  const all: (readonly number[] | undefined)[] = new Array(fingerings.length).fill(undefined);
  playable.forEach(({ index }, i) => {
    all[index] = rows[i];
  });
  return all;
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

function columnKnob(number: ResolvedNumber, resolution: Resolution, air: AirState, follow: boolean): Knob {
  const change = (step: number) => {
    const column = resolution.varied(number.path, step, follow)?.column;
    return column && isInstrument(column, air) ? { column, air } : undefined;
  };
  return { change, step: stepOf(number, resolution.instrument.unitMillimetres) };
}

/** Whether the physics takes the column: a lip that covers less than nothing, say, it refuses. */
function isInstrument(column: Column, air: AirState): boolean {
  try {
    layOut(column, air);
    return true;
  } catch (error) {
    if (error instanceof RangeError) return false;
    throw error;
  }
}

/** In the number's own unit. A parameter may be anything: its step is a share of itself. */
function stepOf({ path, quantity, value }: ResolvedNumber, unitMillimetres: number): number {
  if (path[0] === "parameters") return STEP.number * Math.max(Math.abs(value), LEAST_PARAMETER);
  if (quantity === "length") return STEP.length / (unitMillimetres / 1000);
  return quantity === "percent" ? STEP.percent : STEP.number;
}

function airKnob({ path }: { readonly path: Path }, { instrument, temperature }: Analysis, column: Column): Knob {
  const change = (step: number) => {
    const conditions = { ...instrument.air, temperature };
    if (path === AIR_TEMPERATURE) conditions.temperature += step;
    else if (path === AIR_HUMIDITY) conditions.humidity += step / 100;
    else conditions.carbonDioxide += step / 100;
    return { column, air: airState(conditions) };
  };
  return { change, step: path === AIR_TEMPERATURE ? STEP.temperature : STEP.percent };
}
