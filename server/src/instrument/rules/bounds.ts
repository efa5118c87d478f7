import { t } from "../../words/translation.js";
import { besideEachOther } from "../digits.js";
import type { Finding } from "../finding.js";
import type { ResolvedNumber } from "../formula/resolvedNumber.js";
import { placeInWords } from "../placeInWords.js";
import { type PropertySchema, schemaAt } from "../schema.js";
import type { NumberRule } from "./rule.js";

/** Enough for any unit, plus as many as tell a number from the limit it breaks. */
const DECIMALS = 4;

export const outsideBounds: NumberRule = { code: "value/out-of-range", check: checkBounds };

/** Numbers, expressions worked out, that lie outside what the schema allows. */
function checkBounds(numbers: readonly ResolvedNumber[], unit: "mm" | "in", data: unknown): readonly Finding[] {
  return numbers.flatMap((number) => {
    const schema = schemaAt(number.path);
    return schema === undefined ? [] : (findingOf(number, schema, unit, data) ?? []);
  });
}

function findingOf(
  { path, value, expression }: ResolvedNumber,
  schema: PropertySchema,
  unit: "mm" | "in",
  data: unknown,
): Finding | undefined {
  const { minimum, exclusiveMinimum, maximum, exclusiveMaximum, multipleOf } = schema;
  const isInside =
    (minimum === undefined || value >= minimum) &&
    (exclusiveMinimum === undefined || value > exclusiveMinimum) &&
    (maximum === undefined || value <= maximum) &&
    (exclusiveMaximum === undefined || value < exclusiveMaximum) &&
    (multipleOf !== 1 || Number.isInteger(value));
  // Nearly every number is within: no words are made for it.
  if (isInside) return undefined;
  const name = placeInWords(path, data);
  const ending = schema["x-unit"] === "mm" ? ` ${unit}` : schema["x-unit"] ? ` ${schema["x-unit"]}` : "";
  const whole = multipleOf === 1 ? Math.round(value) : undefined;
  const limits = [minimum, exclusiveMinimum, maximum, exclusiveMaximum, whole].filter((limit) => limit !== undefined);
  const [text] = besideEachOther([value, ...limits].map((each) => ({ value: each, decimals: DECIMALS })));
  const is = expression === undefined ? t`is ${text}${ending}` : t`comes out as ${text}${ending}`;
  if (exclusiveMinimum === 0 && value <= 0) {
    return {
      code: "value/not-positive",
      severity: "error",
      message: t`${name} must be more than 0, and ${is}.`,
      path,
    };
  }
  const bounds = [
    minimum !== undefined && value < minimum && t`at least ${minimum}${ending}`,
    exclusiveMinimum !== undefined && value <= exclusiveMinimum && t`more than ${exclusiveMinimum}${ending}`,
    maximum !== undefined && value > maximum && t`at most ${maximum}${ending}`,
    exclusiveMaximum !== undefined && value >= exclusiveMaximum && t`less than ${exclusiveMaximum}${ending}`,
    multipleOf === 1 && !Number.isInteger(value) && t("a whole number"),
  ].filter((bound) => bound !== false);
  return {
    code: "value/out-of-range",
    severity: "error",
    message: t`${name} must be ${bounds[0]}, and ${is}.`,
    path,
  };
}
