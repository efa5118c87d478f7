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

function validatorCode() {
  const ajv = new Ajv2020({ allErrors: true, allowUnionTypes: true, code: { source: true, esm: true, lines: true } });
  ajv.addVocabulary(["x-unit", "x-quantity", "x-format", "x-names"]);
  const code = standalone.default(ajv, ajv.compile(schema));
  // The bundle is an ES module: a helper that the library would load with `require` cannot be loaded.
  if (code.includes("require(")) throw new Error("the schema uses a keyword whose check needs a run-time helper");
  return code;
}

mkdirSync(generated, { recursive: true });
writeFileSync(join(generated, "validator.js"), validatorCode());
