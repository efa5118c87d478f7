/**
 * Every property of the format tells: with another value the instrument, its drawing, what binds its changes or what is found is another.
 * A property that is nowhere read, or read under a wrong name, changes nothing.
 */
import { describe, expect, it } from "vitest";
import { constraintsOf } from "../../server/src/design/constraints/constraints.js";
import { outlineOf } from "../../server/src/design/outline/index.js";
import { growthOf } from "../../server/src/design/refit/growthOf.js";
import { stockOf } from "../../server/src/instrument/making/stock.js";
import { INSTRUMENT_SCHEMA, type PropertySchema, schemaAt } from "../../server/src/instrument/schema.js";
import { documentOf, fileOf } from "../support/designs.js";
import { DESIGNS } from "./everyProperty.js";

type Path = readonly (string | number)[];
const pattern = (path: Path) => path.map((step) => (typeof step === "number" ? "[]" : step)).join(".");

/** What is there to be read, not to be reckoned with; and what the bench's plan alone reads, which has its own tests. */
const TELLS_NOTHING = ["borewright", "remark", "bore.[].name", "fingerings.[].name", "bench.mouth"];

/** Of the schema, but for names that are free and the levels of rules, which have tests of their own. */
function properties(schema: PropertySchema, at = ""): readonly string[] {
  if (at === "rules" || at === "parameters") return [];
  const below = [
    ...Object.entries(schema.properties ?? {}).flatMap(([name, part]) => properties(part, at ? `${at}.${name}` : name)),
    ...(schema.items === undefined ? [] : properties(schema.items, `${at}.[]`)),
  ];
  return below.length > 0 ? below : [at];
}

function leaves(value: unknown, path: Path = []): readonly Path[] {
  if (Array.isArray(value)) return value.flatMap((item, i) => leaves(item, [...path, i]));
  if (typeof value !== "object" || value === null) return [path];
  return Object.entries(value).flatMap(([name, item]) => leaves(item, [...path, name]));
}

/** A copy with another value at a place. */
function changed(value: unknown, [step, ...rest]: Path, to: (value: unknown) => unknown): unknown {
  if (step === undefined) return to(value);
  const copy = Array.isArray(value) ? [...value] : { ...(value as object) };
  const part = copy as Record<string | number, unknown>;
  part[step] = changed(part[step], rest, to);
  return copy;
}

/** Another value of the same kind. */
function other(value: unknown, path: Path): unknown {
  const schema = schemaAt(path) ?? {};
  const words = [...(schema.enum ?? []), ...(schema["x-names"] ?? [])];
  if (words.length > 1) return words.find((word) => word !== value && !(value === "tube" && word === "cylinder"));
  if (typeof value === "boolean") return !value;
  if (typeof value === "number") return path.at(-1) === "register" ? value + 1 : value * 1.03 + (value === 0 ? 1 : 0);
  if (schema["x-format"] === "note") return value === "D5" ? "E5" : "D5";
  if (schema["x-format"] === "fingering")
    return String(value).startsWith("○") ? `●${String(value).slice(1)}` : `○${String(value).slice(1)}`;
  return path.at(-1) === "degree" ? 3 : `${value} too`;
}

/** All that is made of a design, as text. */
function outcome(design: unknown): string {
  const document = documentOf(fileOf(JSON.stringify(design), "json"));
  const { resolution, findings } = document;
  const { draft, instrument } = resolution;
  return JSON.stringify([
    instrument,
    findings.map(({ code, severity, message }) => [code, severity, message]),
    outlineOf(resolution),
    constraintsOf(document),
    growthOf(document),
    stockOf(draft, "bores"),
  ]);
}

describe("the properties of a design", () => {
  it("all stand in one of the designs below", () => {
    const written = new Set(Object.values(DESIGNS).flatMap((design) => leaves(design).map(pattern)));
    expect(properties(INSTRUMENT_SCHEMA).filter((name) => !written.has(name) && !TELLS_NOTHING.includes(name))).toEqual(
      [],
    );
  });

  it.each(Object.entries(DESIGNS))("tell, each of them, in %s", (_, design) => {
    const as = outcome(design);
    expect(outcome(changed(design, [], (whole) => whole))).toBe(as);
    const silent = leaves(design)
      .filter((path) => !TELLS_NOTHING.includes(pattern(path)))
      .filter((path) => outcome(changed(design, path, (value) => other(value, path))) === as);
    expect(silent.map((path) => path.join("."))).toEqual([]);
  });
});

/** The same design in the other unit of length: an inch is 25.4 mm (international agreement of 1959). */
function inOtherUnits(design: object): unknown {
  const toInches = (design as { units?: string }).units !== "in";
  const lengths = leaves(design).filter((path) => path[0] !== "stock" && schemaAt(path)?.["x-quantity"] === "length");
  const by = toInches ? 1 / 25.4 : 25.4;
  const other = lengths.reduce<unknown>((whole, path) => changed(whole, path, (value) => Number(value) * by), design);
  return { ...(other as object), units: toInches ? "in" : "mm" };
}

/** What is made, in the physics' units and in millimetres: no number in the file's. */
function made(design: unknown): string {
  const document = documentOf(fileOf(JSON.stringify(design), "json"));
  const { resolution } = document;
  const { instrument } = resolution;
  const { body, windway, lips, holeUndersize, printTolerance } = instrument;
  const { key: _, ...constraints } = constraintsOf(document);
  const [drawn, laid] = (["drawn", "laid"] as const).map((sizing) => outlineOf(resolution, sizing)?.body);
  const all = { body, windway, lips, holeUndersize, printTolerance, constraints, drawn, laid };
  // A size is drawn in the file's unit.
  return JSON.stringify(
    all,
    (key, value) => (key === "size" ? "" : typeof value === "number" ? Number(value.toPrecision(8)) + 0 : value),
    1,
  );
}

describe("a design in inches", () => {
  it.each(Object.entries(DESIGNS))("is made as in millimetres: %s", (_, design) => {
    expect(made(inOtherUnits(design as object))).toBe(made(design));
  });
});
