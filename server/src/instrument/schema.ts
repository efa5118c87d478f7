/** Looks up the published schema: what a property is, which unit it has, which values it takes. */
import schemaJson from "../../../schemas/instrument.schema.json" with { type: "json" };
import type { Path } from "./finding.js";
import type { Quantity } from "./formula/resolvedNumber.js";

/** The part of JSON Schema that instrument.schema.json uses. */
export interface PropertySchema {
  readonly description?: string;
  readonly type?: string | readonly string[];
  readonly const?: unknown;
  readonly enum?: readonly unknown[];
  readonly pattern?: string;
  readonly minimum?: number;
  readonly exclusiveMinimum?: number;
  readonly maximum?: number;
  readonly exclusiveMaximum?: number;
  readonly multipleOf?: number;
  readonly minItems?: number;
  readonly maxItems?: number;
  readonly default?: unknown;
  readonly examples?: readonly unknown[];
  readonly required?: readonly string[];
  readonly properties?: Readonly<Record<string, PropertySchema>>;
  readonly additionalProperties?: boolean | PropertySchema;
  readonly items?: PropertySchema;
  /** What kind of number it is; set exactly where a number (or an expression) stands. */
  readonly "x-quantity"?: Quantity;
  /** Its unit, for showing; a `mm` length is in inches where the design says `units: in`. */
  readonly "x-unit"?: string;
  /** What kind of text it is, where the program reads more into it than the pattern says. */
  readonly "x-format"?: "note" | "fingering";
  /** The words that a text may be, where it may also be something else. */
  readonly "x-names"?: readonly string[];
}

export const INSTRUMENT_SCHEMA = schemaJson as unknown as PropertySchema;

/** The schema of one step down, or undefined for an unknown property. */
export function schemaOfStep(schema: PropertySchema, step: string | number): PropertySchema | undefined {
  if (typeof step === "number") return schema.items;
  const { properties, additionalProperties } = schema;
  if (properties !== undefined && Object.hasOwn(properties, step)) return properties[step];
  return typeof additionalProperties === "object" ? additionalProperties : undefined;
}

/** What the schema says of the value at `path`; undefined where it knows no such property. */
export function schemaAt(path: Path): PropertySchema | undefined {
  let schema: PropertySchema | undefined = INSTRUMENT_SCHEMA;
  for (const step of path) schema = schema && schemaOfStep(schema, step);
  return schema;
}
