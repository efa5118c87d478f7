/** Cases kept in files: a design as it is, or any case as JSON with its kind. */
import { readFileSync } from "node:fs";
import { basename } from "node:path";
import type { Runner } from "./commandLine.js";
import type { Fault } from "./kind.js";
import { KINDS } from "./kinds/index.js";

/** A design that stands alone is tried as one drawn for `designs`: with this seed. */
const DRAWS = 1;

/** Tries the case in a file. */
export async function faultsOfFile(path: string, run?: Runner): Promise<readonly Fault[]> {
  const text = readFileSync(path, "utf8");
  const design = /\.bore\.(ya?ml|json)$/.test(path);
  const { kind: name, given } = design
    ? { kind: "designs", given: { file: basename(path), text, draws: DRAWS } }
    : (JSON.parse(text) as { kind: string; given: unknown });
  const kind = KINDS.find((each) => each.name === name);
  if (kind === undefined) throw new Error(`${path}: no kind ${name}`);
  return kind.check(given, run);
}
