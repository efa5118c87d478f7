/** Another reading of a design than ours: js-yaml for YAML, the engine's own parser for JSON. */
import { CORE_SCHEMA, loadAll, mergeTag } from "js-yaml";
import { Lexer } from "yaml";

/** YAML 1.2's core types, and the merge keys that makers write. */
const SCHEMA = CORE_SCHEMA.withTags(mergeTag);

/** The values of each document; undefined where that reader refuses the text. */
export function reread(text: string, json: boolean): readonly unknown[] | undefined {
  const plain = text.replace(/^\uFEFF/, "");
  try {
    return json ? [JSON.parse(plain)] : loadAll(plain, { schema: SCHEMA });
  } catch {
    return undefined;
  }
}

export interface Change {
  /** `0.holes.2.at`: the number of the document, then the path. */
  readonly path: string;
  readonly before: unknown;
  readonly after: unknown;
}

/** Every leaf in which two readings differ; aliases count wherever they stand. */
export function changes(before: unknown, after: unknown, path: readonly (string | number)[] = []): readonly Change[] {
  if (isTree(before) && isTree(after) && Array.isArray(before) === Array.isArray(after)) {
    const keys = new Set([...Object.keys(before), ...Object.keys(after)]);
    return [...keys].flatMap((key) => changes(before[key], after[key], [...path, key]));
  }
  if (isTree(before) || isTree(after)) {
    const leaves = isTree(after) ? changes({}, { ...after }, path) : changes({ ...(before as object) }, {}, path);
    return leaves.length > 0 ? leaves : [{ path: path.join("."), before, after }];
  }
  return Object.is(before, after) ? [] : [{ path: path.join("."), before, after }];
}

function isTree(value: unknown): value is Record<string, unknown> {
  return typeof value === "object" && value !== null;
}

/** Every comment of a YAML text, in order. */
export function comments(text: string, json: boolean): readonly string[] {
  if (json) return [];
  return [...new Lexer().lex(text)].filter((token) => token.startsWith("#"));
}
