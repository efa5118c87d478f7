/** The published schema's words as hovers and completion show them. */
import type { PropertySchema } from "../instrument/schema.js";

export { type PropertySchema, schemaAt } from "../instrument/schema.js";

/** Unit as written in the file's own words: lengths are in the file's unit, everything else as the schema says. */
export function unitOf(schema: PropertySchema | undefined, unitMillimetres: number): string | undefined {
  if (schema?.["x-quantity"] === "length" && unitMillimetres !== 1) return "in";
  return schema?.["x-unit"];
}

export function allows(schema: PropertySchema | undefined, type: string): boolean {
  const given = schema?.type;
  return given === type || (Array.isArray(given) && given.includes(type));
}

/** Whether the value is a number that may be written as an expression after `=`. */
export function takesExpression(schema: PropertySchema | undefined): boolean {
  return schema?.["x-quantity"] !== undefined;
}
