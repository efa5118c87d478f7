/**
 * Makes from instrument.schema.json what the program needs at run time and at compile time:
 * a validator without a schema compiler, so that none is shipped, and the TypeScript types of a design.
 * `--check` writes nothing and fails if the checked-in types are not those of the schema.
 */
import { mkdirSync, readFileSync, writeFileSync } from "node:fs";
import { dirname, join } from "node:path";
import { fileURLToPath } from "node:url";
import { Ajv2020 } from "ajv/dist/2020.js";
import standalone from "ajv/dist/standalone/index.js";
import { compile } from "json-schema-to-typescript";

const here = dirname(fileURLToPath(import.meta.url));
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

async function typesCode() {
  return compile(structuredClone(schema), "DesignData", {
    bannerComment: "/** Made by schemas/generate.mjs from schemas/instrument.schema.json. Do not edit. */",
    format: false,
    additionalProperties: false,
  });
}

const typesFile = join(generated, "schemaTypes.ts");
if (process.argv.includes("--check")) {
  if (readFileSync(typesFile, "utf8") !== (await typesCode())) {
    console.error("schemaTypes.ts is not that of the schema: run `npm run generate` and commit it.");
    process.exitCode = 1;
  }
} else {
  mkdirSync(generated, { recursive: true });
  writeFileSync(join(generated, "validator.js"), validatorCode());
  writeFileSync(typesFile, await typesCode());
}
