/**
 * Makes what is said elsewhere: from the registry of rules the property `rules` of the schema, the setting `borewright.rules` and
 * the index of docs/rules; from the schema a validator without a schema compiler, so that none is shipped.
 */
import { mkdirSync, readFileSync, writeFileSync } from "node:fs";
import { dirname, join } from "node:path";
import { fileURLToPath } from "node:url";
import { Ajv2020 } from "ajv/dist/2020.js";
import standalone from "ajv/dist/standalone/index.js";
import { writeRules } from "./rules.mjs";

const here = dirname(fileURLToPath(import.meta.url));
await writeRules(join(here, ".."));
const generated = join(here, "../server/src/instrument/generated");
const schema = JSON.parse(readFileSync(join(here, "instrument.schema.json"), "utf8"));

/** Words and hints decide nothing, and the validator would carry all of them a second time into every bundle. */
const ANNOTATIONS = new Set([
  "title",
  "description",
  "examples",
  "default",
  "x-unit",
  "x-quantity",
  "x-format",
  "x-names",
]);
/** Keywords whose keys are names of the design's own, not keywords. */
const MAPS = new Set(["properties", "patternProperties", "$defs", "dependentSchemas"]);

/** The schema without its annotations. */
function bare(value, isMap = false) {
  if (Array.isArray(value)) return value.map((each) => bare(each));
  if (typeof value !== "object" || value === null) return value;
  const kept = Object.entries(value).filter(([key]) => isMap || !ANNOTATIONS.has(key));
  return Object.fromEntries(kept.map(([key, each]) => [key, bare(each, !isMap && MAPS.has(key))]));
}

function validatorCode() {
  const ajv = new Ajv2020({ allErrors: true, allowUnionTypes: true, code: { source: true, esm: true, lines: true } });
  const code = standalone.default(ajv, ajv.compile(bare(schema)));
  // The bundle is an ES module: a helper that the library would load with `require` cannot be loaded.
  if (code.includes("require(")) throw new Error("the schema uses a keyword whose check needs a run-time helper");
  return code;
}

mkdirSync(generated, { recursive: true });
writeFileSync(join(generated, "validator.js"), validatorCode());
