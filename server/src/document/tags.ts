/** Values with an explicit YAML tag (`!!float 203.7`): what may be written behind it, and where it is to go. */
import type { Span } from "./span.js";
import type { ScalarNode } from "./tree.js";

/** Names of YAML 1.2's core schema (yaml.org/spec/1.2.2, chapter 10.3). */
const FLOAT = "tag:yaml.org,2002:float";
const INTEGER = "tag:yaml.org,2002:int";
const TEXT: readonly string[] = ["tag:yaml.org,2002:str", "!"];

/** A number in the form its tag needs; undefined where the tag does not allow it. */
export function numberUnder(tag: string | undefined, written: string): string | undefined {
  if (tag === undefined) return written;
  if (tag === FLOAT) return written.includes(".") ? written : `${written}.0`;
  return tag === INTEGER && !written.includes(".") ? written : undefined;
}

/** Whether a text may follow the tag. */
export function allowsText(tag: string | undefined): boolean {
  return tag === undefined || TEXT.includes(tag);
}

/** Tag, and perhaps an anchor after it, longer than anybody writes. */
const LONGEST = 500;

/** Where the tag of a value and the blanks after it stand; an anchor may stand between, and stays. */
export function tagSpan(text: string, { span, tag }: ScalarNode): Span | undefined {
  if (tag === undefined) return undefined;
  const from = Math.max(0, span.start - LONGEST);
  const found = /(!\S*\s+)((?:&\S+\s+)?)$/.exec(text.slice(from, span.start));
  if (found?.[1] === undefined) return undefined;
  const start = from + found.index;
  return { start, end: start + found[1].length };
}
