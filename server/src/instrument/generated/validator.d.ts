/** The validator that schemas/generate.mjs makes of schemas/instrument.schema.json. */
import type { ErrorObject } from "ajv";

declare const validate: { (data: unknown): boolean; errors?: ErrorObject[] | null };
export default validate;
