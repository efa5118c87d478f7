/** Which properties and examples suit the family of the instrument: a whistle has no embouchure hole. */

import { FAMILIES, type Family } from "../../instrument/families/index.js";
import type { Path } from "../../instrument/finding.js";

const OF_SOME = new Set(Object.values(FAMILIES).flatMap(({ properties }) => properties));

export function suits(path: Path, family: Family | undefined): boolean {
  const name = path.join(".");
  return family === undefined || !OF_SOME.has(name) || FAMILIES[family].properties.includes(name);
}

/** The first of several examples whose own properties all suit the family. */
export function fittingExample(path: Path, examples: readonly unknown[], family: Family | undefined): unknown {
  const fits = (example: unknown) =>
    typeof example !== "object" ||
    example === null ||
    Array.isArray(example) ||
    Object.keys(example).every((name) => suits([...path, name], family));
  return examples.find(fits) ?? examples[0];
}
