/** Every family of the format has its module, and what the modules name is in the format. */
import { readdirSync, readFileSync } from "node:fs";
import { expect, it } from "vitest";
import schema from "../../schemas/instrument.schema.json";
import { FAMILIES } from "../../server/src/instrument/families/index.js";

it("are those of the schema, each under its own name", () => {
  const named = Object.entries(FAMILIES);
  expect(named.map(([name]) => name).sort()).toEqual([...schema.properties.family.enum].sort());
  for (const [name, traits] of named) expect(traits.name).toBe(name);
});

/** Where a family's word may stand beside its module: designs to begin from, each of a family, and readers of a mesh. */
const ALSO = /^(design\/create|language\/completion\/starters|survey|instrument\/generated)/;

it("are named in their module, and elsewhere only in designs to begin from", () => {
  const words = Object.values(FAMILIES).filter(
    ({ body, mouth }) => body !== "vessel" && !(body === "tube" && mouth === "rim"),
  );
  const quoted = new RegExp(
    words.map(({ name }) => `family: "${name}"|(?:family|is) === "${name}"|return "${name}"`).join("|"),
  );
  const sources = readdirSync("server/src", { recursive: true, encoding: "utf8" }).filter((name) =>
    name.endsWith(".ts"),
  );
  const naming = sources.filter((name) => quoted.test(readFileSync(`server/src/${name}`, "utf8")));
  expect(naming.filter((name) => !name.startsWith("instrument/families/") && !ALSO.test(name))).toEqual([]);
});

it("have properties of the schema alone", () => {
  const isIn = (node: unknown, [name, ...rest]: readonly string[]): boolean => {
    if (name === undefined) return true;
    const asked: unknown[] = [node];
    for (let part = asked.pop(); part !== undefined; part = asked.pop()) {
      const { $ref, properties, oneOf, anyOf, allOf } = part as Record<string, never>;
      if (properties !== undefined && name in properties) return isIn(properties[name], rest);
      if ($ref !== undefined)
        asked.push(
          String($ref)
            .split("/")
            .slice(1)
            .reduce((at: never, key) => at[key], schema as never),
        );
      for (const parts of [oneOf, anyOf, allOf]) if (parts !== undefined) asked.push(...(parts as unknown[]));
    }
    return false;
  };
  for (const { name, properties } of Object.values(FAMILIES))
    for (const property of properties)
      expect([name, property, isIn(schema, property.split("."))]).toEqual([name, property, true]);
});

it("share none of makers' names for them", () => {
  const words = Object.values(FAMILIES).flatMap(({ alsoCalled }) => alsoCalled);
  expect(new Set(words).size).toBe(words.length);
});
