/** Takes an entry out of a map, with the line or the comma that was its own. */
import type { Path } from "../instrument/finding.js";
import { meaning } from "./edits.js";
import { lineStartOf } from "./insertion.js";
import type { Span } from "./span.js";
import type { Editable, TextEdit } from "./textEdit.js";
import { type MapEntry, type MapNode, nodeAt } from "./tree.js";

/** Nothing where the entry is not written there, or shares its line with something that stays. */
export function removeEntry(document: Editable, path: Path): readonly TextEdit[] {
  const map = nodeAt(document.root, path.slice(0, -1));
  if (map?.kind !== "map" || map.source !== undefined) return [];
  const index = map.entries.findIndex(({ key, merged }) => key === path.at(-1) && !merged);
  const entry = map.entries[index];
  if (entry === undefined) return [];
  const span = map.flow ? inFlow(document.text, map, entry) : onItsLines(document.text, entry);
  return span === undefined ? [] : meaning({ path }, [{ span, text: "" }]);
}

/** With the comma behind it; the last entry with the comma before it. */
function inFlow(text: string, map: MapNode, { keySpan, value }: MapEntry): Span {
  const end = Math.max(keySpan.end, value.span.end);
  const behind = /^\s*,[ \t]*/.exec(text.slice(end, map.span.end));
  if (behind !== null) return { start: keySpan.start, end: end + behind[0].length };
  const before = /,\s*$/.exec(text.slice(map.span.start, keySpan.start));
  return { start: keySpan.start - (before?.[0].length ?? 0), end };
}

/** The whole lines; a remark behind the value stays where it is. */
function onItsLines(text: string, { keySpan, value }: MapEntry): Span | undefined {
  const start = lineStartOf(text, keySpan.start);
  if (text.slice(start, keySpan.start).trim() !== "") return undefined;
  const written = text.slice(0, Math.max(keySpan.end, value.span.end)).trimEnd().length;
  const [rest, remark] = /^[ \t]*(#)?(?:(?<!#)(?:\r?\n|$))?/.exec(text.slice(written)) ?? [""];
  if (remark !== undefined) return { start: keySpan.start, end: written + rest.length - 1 };
  const end = written + rest.length;
  return end === text.length || text[end - 1] === "\n" ? { start, end } : undefined;
}
