/** Text values as YAML and JSON write them. */
import { parse, stringify } from "yaml";
import type { Syntax } from "./designFile.js";

/**
 * `value` quoted in the way `old` is (the old value as written, or empty where there is none): single or double quotes stay,
 * a plain value stays plain where it may.
 */
export function quotedLike(old: string, value: string, syntax: Syntax, inFlow: boolean): string {
  if (syntax === "json" || old.startsWith('"')) return JSON.stringify(value);
  const oneLine = !/[\r\n]/.test(value);
  if (old.startsWith("'") && oneLine) return `'${value.replaceAll("'", "''")}'`;
  return oneLine && standsPlain(value, inFlow) ? value : JSON.stringify(value);
}

/** Whether a plain scalar with these characters reads back as this very text. */
function standsPlain(value: string, inFlow: boolean): boolean {
  try {
    const read: unknown = inFlow ? parse(`{ k: ${value}, z: 0 }`).k : parse(`k: ${value} # end`).k;
    return read === value && stringify(value).trimEnd() !== "";
  } catch {
    return false;
  }
}
