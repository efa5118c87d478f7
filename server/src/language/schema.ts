/** The published schema's words as hovers and completion show them. */
import type { DesignDocument } from "../document/designFile.js";
import type { PropertySchema } from "../instrument/schema.js";

export { type PropertySchema, schemaAt } from "../instrument/schema.js";

/**
 * Unit as written in the file's own words: lengths are in the file's unit, everything else as the schema says. Undefined for
 * lengths where the file names a unit that is not known: whatever is meant, it is not millimetres.
 */
export function unitOf(
  schema: PropertySchema | undefined,
  { resolution }: Pick<DesignDocument, "resolution">,
): string | undefined {
  if (schema?.["x-quantity"] !== "length") return schema?.["x-unit"];
  if (resolution.findings.some(({ path }) => path.length === 1 && path[0] === "units")) return undefined;
  return resolution.instrument.unitMillimetres === 1 ? "mm" : "in";
}

export function allows(schema: PropertySchema | undefined, type: string): boolean {
  const given = schema?.type;
  return given === type || (Array.isArray(given) && given.includes(type));
}

/** Whether the value is a number that may be written as an expression after `=`. */
export function takesExpression(schema: PropertySchema | undefined): boolean {
  return schema?.["x-quantity"] !== undefined;
}
