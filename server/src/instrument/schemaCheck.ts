/** Checks a design against the schema and says what is wrong in the maker's words, once for each place. */

import type { ErrorObject } from "ajv";
import { spokenTranslation, t } from "../words/translation.js";
import { didYouMean, Suggestions } from "./didYouMean.js";
import { FAMILIES } from "./families/index.js";
import type { Correction, Finding, Path, RuleCode } from "./finding.js";
import validate from "./generated/validator.js";
import { own, pathKey, valueAt } from "./path.js";
import { placeInWords } from "./placeInWords.js";
import { INSTRUMENT_SCHEMA, type PropertySchema, schemaAt } from "./schema.js";

/** Findings of form: unknown and missing properties, values of the wrong kind. Bounds of numbers are rules/bounds.ts's. */
export function checkSchema(data: unknown): readonly Finding[] {
  if (validate(data)) return [];
  const found = new Map<string, Finding>();
  const suggestions = new Suggestions();
  for (const error of validate.errors ?? []) {
    const finding = translate(error, data, suggestions);
    if (finding === undefined) continue;
    const key = `${pathKey(finding.path)} ${finding.on ?? "value"}`;
    const known = found.get(key);
    // A value of the wrong kind breaks other clauses too; the kind is reported.
    if (known === undefined || (error.keyword === "type" && known.code !== "value/missing")) found.set(key, finding);
  }
  const findings = [...found.values()];
  // A misspelt property is not missing as well.
  const meant = new Suggestions();
  const misspelt = new Set(findings.flatMap((finding) => meantBy(finding, meant) ?? []));
  return findings.filter(({ code, path }) => code !== "schema/missing-property" || !misspelt.has(pathKey(path)));
}

/** Where the property that an unknown one was meant to be would go. */
function meantBy({ code, path, data }: Finding, suggestions: Suggestions): string | undefined {
  if (code !== "schema/unknown-property") return undefined;
  const { known } = data as { readonly known: readonly string[] };
  const meant = suggestions.meant(String(path.at(-1)), known);
  return meant && pathKey([...path.slice(0, -1), meant]);
}

function translate(error: ErrorObject, data: unknown, suggestions: Suggestions): Finding | undefined {
  const path = pathOf(error.instancePath, data);
  // Checked by hand: the version by rules/version.ts, notes and patterns of holes where they are read.
  if (path[0] === "borewright" || (path.length === 0 && error.params.missingProperty === "borewright"))
    return undefined;
  const schema = schemaAt(path) ?? {};
  const value = valueAt(data, path);
  switch (error.keyword) {
    case "additionalProperties":
      return unknownProperty(path, String(error.params.additionalProperty), schema, data, suggestions);
    case "propertyNames":
      return parameterName([...path, String(error.params.propertyName)]);
    case "required":
      return missingProperty(path, String(error.params.missingProperty), data);
    case "type":
    case "enum":
    case "const":
      return wrongKind(path, value, schema, data, suggestions);
    case "pattern":
      return schema["x-format"] === undefined && error.propertyName === undefined
        ? wrongKind(path, value, schema, data, suggestions)
        : undefined;
    case "minimum":
    case "maximum":
      // Numbers with a quantity are rules/bounds.ts's, formulas worked out; a degree is not such a number.
      return schema["x-quantity"] === undefined ? wrongKind(path, value, schema, data, suggestions) : undefined;
    case "minItems":
    case "maxItems":
      return wrongCount(path, value, schema, data);
    default:
      return undefined;
  }
}

/** A JSON pointer as a path; numbers where the data has a list. */
function pathOf(pointer: string, data: unknown): Path {
  const path: (string | number)[] = [];
  let value = data;
  for (const part of pointer.split("/").slice(1)) {
    const key = part.replaceAll("~1", "/").replaceAll("~0", "~");
    const step = Array.isArray(value) ? Number(key) : key;
    path.push(step);
    value = Array.isArray(value) ? value[step as number] : own(value, key);
  }
  return path;
}

function unknownProperty(
  path: Path,
  name: string,
  schema: PropertySchema,
  data: unknown,
  suggestions: Suggestions,
): Finding {
  const known = Object.keys(schema.properties ?? {});
  const meant = suggestions.meant(name, known);
  const written = valueAt(data, path);
  const open = known.find((key) => isOpenFormula(own(written, key)));
  const message =
    open === undefined
      ? /^\d+$/.test(name)
        ? t`What is \`${name}\`? If it belongs to the number before it, write decimals with a point, such as 12.5.`
        : t`${placeName(path, data)} has no property \`${shorten(name)}\`.${didYouMean(meant) || t` It takes ${listed(known)}.`}`
      : t`\`${shorten(name)}\` seems to belong to the formula of \`${open}\`: put that formula in quotes.`;
  return {
    code: "schema/unknown-property",
    severity: "error",
    message,
    path: [...path, name],
    on: "key",
    ...(open !== undefined || meant === undefined ? {} : { correction: { do: "rename" as const, to: meant } }),
    data: { known },
  };
}

function isOpenFormula(value: unknown): boolean {
  return (
    typeof value === "string" && value.trimStart().startsWith("=") && value.split("(").length > value.split(")").length
  );
}

function parameterName(path: Path): Finding {
  const message = t`\`${shorten(String(path.at(-1)))}\` cannot be used in a formula: a parameter's name has letters, digits and _ only, and begins with a letter.`;
  return { code: "schema/parameter-name", severity: "error", message, path, on: "key" };
}

function missingProperty(path: Path, name: string, data: unknown): Finding {
  const what = t(schemaAt([...path, name])?.description ?? "").split(". ")[0] ?? "";
  const message = t`${placeName(path, data)} needs \`${name}\`: ${withinSentence(what)}.`;
  return { code: "schema/missing-property", severity: "error", message, path: [...path, name] };
}

/** A description goes on after a colon; German nouns keep their capitals. */
function withinSentence(description: string): string {
  const bare = description.replace(/\.$/, "");
  return spokenTranslation() === undefined ? bare.charAt(0).toLowerCase() + bare.slice(1) : bare;
}

function wrongKind(
  path: Path,
  value: unknown,
  schema: PropertySchema,
  data: unknown,
  suggestions: Suggestions,
): Finding {
  const name = path.length === 0 ? t("The design") : placeInWords(path, data);
  const finding = (code: RuleCode, message: string, correction?: Correction): Finding => ({
    code,
    severity: "error",
    message,
    path,
    ...(correction === undefined ? {} : { correction }),
  });
  if (value === null) {
    // `degree: #4` in YAML is a comment.
    const hashed = schema.pattern?.includes("#") ? t(" Put a value that begins with # in quotes.") : "";
    return finding("value/missing", t`${name} has no value yet: it takes ${expected(schema)}.${hashed}`);
  }
  if (typeof value === "number" && !Number.isFinite(value)) {
    return finding("value/not-finite", t`${name} must be an ordinary, finite number.`);
  }
  if (path.length === 1 && path[0] === "units" && typeof value === "string" && value.trim().toLowerCase() === "cm") {
    // It would be taken for a misspelt `mm`, and the instrument for a tenth of its size.
    const message = t(
      "`units` cannot be `cm`: write `units: mm`, and every length in millimetres, ten times the number.",
    );
    return finding("schema/unknown-word", message);
  }
  const words = wordsOf(schema);
  if (words.length > 0 && typeof value === "string") {
    const family = path[0] === "family" ? familyOf(value) : undefined;
    const meant = family ?? suggestions.meant(value, words);
    const hint =
      family === undefined ? didYouMean(meant) || t` It takes ${expected(schema)}.` : t` Its family is \`${family}\`.`;
    const correction = meant === undefined ? undefined : ({ do: "write", text: meant } as const);
    return finding("schema/unknown-word", t`${name} cannot be \`${shorten(value)}\`.${hint}`, correction);
  }
  if (
    schema["x-quantity"] !== undefined &&
    typeof value === "string" &&
    value.trim() !== "" &&
    Number.isFinite(Number(value))
  ) {
    return finding(
      "schema/wrong-kind",
      t`${name} is text because of its quotes; write ${value.trim()} without them.`,
      number(value.trim()),
    );
  }
  if (
    schema["x-quantity"] !== undefined &&
    typeof value === "string" &&
    /^\s*-?\d*\.?\d+\s*[a-z"%]+\s*$/i.test(value)
  ) {
    const message = t`${name} takes a number without a unit${unitHint(schema)}, not \`${shorten(value.trim())}\`: write the number alone.`;
    return finding("schema/wrong-kind", message, withoutUnit(schema, value));
  }
  if (schema["x-quantity"] !== undefined && typeof value === "string" && /^\s*-?\d+,\d+\s*$/.test(value)) {
    const point = value.trim().replace(",", ".");
    return finding("schema/wrong-kind", t`${name}: write decimals with a point, ${point}.`, number(point));
  }
  return finding("schema/wrong-kind", t`${name} takes ${expected(schema)}, not ${described(value)}.`);
}

function number(raw: string): Correction | undefined {
  return /^-?(\d+\.?\d*|\.\d+)$/.test(raw) ? { do: "set", raw } : undefined;
}

/** The number alone, where its unit is the assumed one anyway. */
function withoutUnit({ "x-unit": unit }: PropertySchema, value: string): Correction | undefined {
  const [, digits = "", written = ""] = /^\s*(-?\d*\.?\d+)\s*([a-z]+)\s*$/i.exec(value) ?? [];
  return unit !== undefined && written.toLowerCase() === unit.toLowerCase() ? number(digits) : undefined;
}

function familyOf(written: string): string | undefined {
  const word = written.trim().toLowerCase();
  return Object.values(FAMILIES).find(({ alsoCalled }) => alsoCalled.includes(word))?.name;
}

/** The words that a text may be; a pattern may let a single one through. */
function wordsOf(schema: PropertySchema): readonly string[] {
  const single = /^\^(\w+)\$$/.exec(schema.pattern ?? "")?.[1];
  return [...(schema.enum ?? []).map(String), ...(schema["x-names"] ?? (single === undefined ? [] : [single]))];
}

/** Nothing for a number of any kind, a parameter say. */
function unitHint({ "x-unit": unit }: PropertySchema): string {
  if (unit === "mm") return t(" (mm, or inches where `units: in` is set for the whole file)");
  return unit === undefined ? "" : ` (${unit})`;
}

/** What a property takes, for the end of a sentence. */
function expected(schema: PropertySchema): string {
  if (schema["x-quantity"] === "percent") return t("a percentage such as 100 % or a formula such as =ratio*100");
  if (schema["x-quantity"] !== undefined) return t("a number or a formula such as =wall*2");
  if (schema["x-format"] === "note") return t("a note with its octave, such as G4");
  if (schema["x-format"] === "fingering") return t('one sign per hole, such as "●●○"');
  const words = wordsOf(schema).map((word) => `\`${word}\``);
  const list = words.join(words.length === 2 ? t(" or ") : ", ");
  const [property] = Object.keys(schema.properties ?? {});
  if (words.length > 0) return property === undefined ? list : t`properties such as \`${property}:\`, or ${list}`;
  const examples = (schema.examples ?? []).map((example) => `\`${example}\``);
  const such = examples.length > 0 ? t` such as ${examples.slice(0, 2).join(t(" or "))}` : "";
  const types = [schema.type ?? []].flat();
  if (types.includes("object"))
    return property === undefined ? t("names with values") : t`properties such as \`${property}:\``;
  if (types.includes("array")) return t("a list");
  if (types.includes("boolean")) return t("true or false");
  return types.includes("integer") ? t`a step of the scale${such}` : t`text${such}`;
}

function described(value: unknown): string {
  if (Array.isArray(value)) return t("a list");
  if (typeof value === "object") return t("a group of properties");
  if (typeof value === "string") return value === "" ? t("empty text") : t`the text \`${shorten(value)}\``;
  return `\`${String(value)}\``;
}

function shorten(text: string): string {
  return text.length > 40 ? `${text.slice(0, 39)}…` : text;
}

function wrongCount(path: Path, value: unknown, schema: PropertySchema, data: unknown): Finding {
  const count = Array.isArray(value) ? value.length : 0;
  const wanted =
    schema.minItems === schema.maxItems ? t`exactly ${schema.maxItems} entries` : t`at most ${schema.maxItems} entries`;
  const message = t`${placeInWords(path, data)} takes ${wanted}, not ${count}.`;
  return { code: "schema/wrong-count", severity: "error", message, path, on: "key" };
}

const THINGS: Readonly<Record<string, string>> = {
  holes: "A hole",
  bore: "A station",
  fingerings: "A fingering",
  measured: "A measured note",
  pipes: "A pipe",
};

function placeName(path: Path, data: unknown): string {
  if (path.length === 0) return t("A design");
  return (path.length === 2 && t(THINGS[String(path[0])] ?? "")) || placeInWords(path, data);
}

function listed(names: readonly string[]): string {
  const ticked = names.map((name) => `\`${name}\``);
  if (ticked.length > 12) return t`names such as ${ticked.slice(0, 12).join(", ")}`;
  return ticked.length < 2 ? ticked.join("") : t`${ticked.slice(0, -1).join(", ")} and ${ticked.at(-1)}`;
}

/** Names of the properties at the top of a design, in the order of the schema. */
export const TOP_LEVEL_KEYS: readonly string[] = Object.keys(INSTRUMENT_SCHEMA.properties ?? {});
