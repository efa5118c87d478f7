/** Which properties and examples suit the family of the instrument: a whistle has no embouchure hole. */

import type { Family } from "../../instrument/family.js";
import type { Path } from "../../instrument/finding.js";

/** Families that a property is for; those not listed are for all. Common practice, no source. */
const FAMILIES_OF = new Map<string, readonly Family[]>([
  ["pipes", ["panpipe"]],
  ["vessel", ["vessel"]],
  ["bore", ["transverse", "duct", "rim"]],
  ["foot", ["transverse", "duct", "rim"]],
  ["holes", ["transverse", "duct", "rim", "vessel"]],
  ["mouth.window", ["duct", "vessel"]],
  ["mouth.window.stopper", ["duct"]],
  ["mouth.windway", ["duct", "vessel"]],
  ["mouth.chamber", ["duct"]],
  ["mouth.block", ["duct"]],
  ["mouth.hole", ["transverse", "vessel"]],
  ["mouth.stopper", ["transverse"]],
  ["mouth.notch", ["rim"]],
  ["mouth.cover", ["transverse", "rim", "panpipe", "vessel"]],
  ["hands", ["transverse", "duct", "rim", "vessel"]],
  ["rules.pipe/no-note", ["panpipe"]],
  ["rules.pipe/fingerings", ["panpipe"]],
  ["rules.vessel/shape-assumed", ["vessel"]],
  ["rules.vessel/hole-place", ["vessel"]],
  ["fingerings", ["transverse", "duct", "rim", "vessel"]],
]);

export function suits(path: Path, family: Family | undefined): boolean {
  const families = FAMILIES_OF.get(path.join("."));
  return family === undefined || families === undefined || families.includes(family);
}

/** Of several examples, the first whose own properties all suit the family. */
export function fittingExample(path: Path, examples: readonly unknown[], family: Family | undefined): unknown {
  const fits = (example: unknown) =>
    typeof example !== "object" ||
    example === null ||
    Array.isArray(example) ||
    Object.keys(example).every((name) => suits([...path, name], family));
  return examples.find(fits) ?? examples[0];
}
