/** The published schema is a schema, explains every property, and what is made from it is current. */
import { readdirSync, readFileSync } from "node:fs";
import { Ajv2020 } from "ajv/dist/2020.js";
import { describe, expect, it } from "vitest";
import { parseAllDocuments } from "yaml";
import { readDesign, syntaxOf } from "../../server/src/document/read.js";
import { DEFAULTS, HANDS } from "../../server/src/instrument/defaults.js";
import validate from "../../server/src/instrument/generated/validator.js";
import { type PropertySchema, schemaAt } from "../../server/src/instrument/schema.js";
import { TEMPERAMENT_NAMES } from "../../server/src/music/temperament.js";

const at = (path: string) => new URL(`../../${path}`, import.meta.url);
const schema = JSON.parse(readFileSync(at("schemas/instrument.schema.json"), "utf8"));
const ajv = new Ajv2020({ allErrors: true, allowUnionTypes: true, strict: true });
ajv.addVocabulary(["x-unit", "x-quantity", "x-format", "x-names"]);
const compiled = ajv.compile(schema);

/** Every schema of a value, with where in the design it stands. */
function* properties(part: PropertySchema, path: string): Iterable<[string, PropertySchema]> {
  yield [path, part];
  for (const [name, below] of Object.entries(part.properties ?? {})) yield* properties(below, `${path}.${name}`);
  if (part.items) yield* properties(part.items, `${path}[]`);
  if (typeof part.additionalProperties === "object") yield* properties(part.additionalProperties, `${path}.*`);
}
const all = [...properties(schema, "design")];

describe("instrument.schema.json", () => {
  it("is valid JSON Schema 2020-12, strictly", () => {
    expect(schema.$schema).toBe("https://json-schema.org/draft/2020-12/schema");
    expect(ajv.validateSchema(schema), JSON.stringify(ajv.errors)).toBe(true);
  });

  it.each(all)("%s is described, with examples that are valid", (_, part) => {
    expect(part.description).toMatch(/^[A-Z].*[.!]$/s);
    expect(part.examples?.length).toBeGreaterThan(0);
    const own = ajv.compile(part as object);
    for (const example of part.examples ?? []) expect(own(example), JSON.stringify([example, own.errors])).toBe(true);
    if (part.default !== undefined) expect(own(part.default)).toBe(true);
  });

  it.each(all.filter(([, { type }]) => [type].flat().includes("number")))(
    "%s has a quantity, and a unit if it is one of any",
    (_, part) => {
      expect(part["x-quantity"]).toBeDefined();
      if (part["x-quantity"] !== "number") expect(part["x-unit"]).toBeDefined();
      expect([part.type].flat()).toContain("string");
      expect(new RegExp(part.pattern ?? "(?!)").test("=wall")).toBe(true);
    },
  );

  it.each([
    ["pitchStandard", DEFAULTS.pitchStandard],
    ["temperament", DEFAULTS.temperament],
    ["units", DEFAULTS.units],
    ["foot", DEFAULTS.foot],
    ["air.humidity", DEFAULTS.humidity],
    ["air.carbonDioxide", DEFAULTS.carbonDioxide],
    ["air.pressure", DEFAULTS.pressure],
    ["air.losses", DEFAULTS.losses],
    ["print.scale", `${DEFAULTS.printScale} %`],
    ["print.shrinkage", `${DEFAULTS.shrinkage} %`],
    ["print.holeUndersize", DEFAULTS.holeUndersize],
    ["holes.0.side", DEFAULTS.side],
    ["fingerings.0.register", DEFAULTS.register],
  ])("the default of %s is the one that the program takes", (dotted, value) => {
    const path = dotted.split(".").map((step) => (/^\d+$/.test(step) ? Number(step) : step));
    expect(schemaAt(path)?.default).toBe(value);
  });

  it.each([
    ["hands.reach", [...Object.values(HANDS.adult.reach), ...Object.values(HANDS.child.reach)].join(" mm.*")],
    [
      "hands.spacing",
      `${HANDS.adult.spacing.hand} mm.*${HANDS.adult.spacing.hands} mm.*${HANDS.child.spacing.hand} mm and ${HANDS.child.spacing.hands} mm`,
    ],
    ["hands.thumb", `${HANDS.adult.thumb} mm, a child's ${HANDS.child.thumb} mm`],
    ["hands.fingertip", `${HANDS.adult.fingertip} mm.* a child's ${HANDS.child.fingertip} mm`],
    ["print.nozzle", `${DEFAULTS.nozzleMillimetres} mm`],
    ["print.leastWall", `${Number((DEFAULTS.airtightLines * DEFAULTS.nozzleMillimetres).toFixed(2))} mm`],
    ["print.lineWidth", `${DEFAULTS.lineInNozzles.join(" to ")} times`],
    ["print.holeGap", `${DEFAULTS.holeGapMillimetres} mm`],
    ["print.jointClearance", `${DEFAULTS.jointClearanceMillimetres} mm`],
    ["print.rounding", `${DEFAULTS.rounding.mm} mm .${DEFAULTS.rounding.in} in`],
    ["print.tolerance", `${DEFAULTS.printToleranceMillimetres} mm`],
    ["mouth.window.labium", `it is ${DEFAULTS.labium}\\.`],
    ["mouth.notch.gap", `${DEFAULTS.lipToEdge} mm`],
    ["mouth.notch.edge", `${DEFAULTS.notchEdge} mm`],
    ["mouth.cover", `${DEFAULTS.transverseCover} .*${DEFAULTS.rimCover} .*${DEFAULTS.pipeCover} `],
  ])("says of %s, whose default no unit of the file has, what is taken where it is left out", (dotted, words) => {
    expect(schemaAt(dotted.split("."))?.description).toMatch(new RegExp(`Left out, .*${words}`));
  });

  it("names the temperaments of the music layer", () => {
    expect(schema.properties.temperament["x-names"]).toEqual([...TEMPERAMENT_NAMES]);
  });
});

describe("what is generated from the schema", () => {
  it("is current: the validator says what the schema says", () => {
    const values = [
      {},
      { borewright: 1 },
      { borewright: 1, wall: -1 },
      { borewright: 1, wall: "3" },
      { borewright: 1, wall: "=3" },
      { borewright: 1, air: "played" },
      { borewright: 1, holes: [{}] },
      { borewright: 1, hole: [] },
      ...schema.examples,
    ];
    for (const value of values) expect(validate(value), JSON.stringify(value)).toBe(compiled(value));
  });
});

describe("the examples", () => {
  const files = readdirSync(at("examples/")).filter((name) => /\.bore\.(yaml|yml|json)$/.test(name));
  it("are there", () => expect(files.length).toBeGreaterThanOrEqual(4));

  it.each(files)("%s is valid, and means the same to the plain YAML library and to us", (name) => {
    const text = readFileSync(at(`examples/${name}`), "utf8");
    for (const document of parseAllDocuments(text, { merge: true }) as { toJS(): unknown }[]) {
      expect(compiled(document.toJS()), JSON.stringify(compiled.errors)).toBe(true);
    }
    const findings = readDesign(text, syntaxOf(name)).documents.flatMap((document) => document.findings);
    expect(findings.filter(({ severity }) => severity === "error")).toEqual([]);
  });
});
