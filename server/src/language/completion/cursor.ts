/**
 * What is at the cursor, found by a scan of the text before it: a half-typed line is not in the tree.
 * One scan for YAML's block style, YAML's flow style and JSON, which is the last one with quotes.
 */
import type { Syntax } from "../../document/designFile.js";
import type { Path } from "../../instrument/finding.js";
import { scanBlock } from "./blockScan.js";
import { scanFlow } from "./flowScan.js";
import { type Frame, Scan, type Spot } from "./scan.js";

export interface Cursor {
  /** Path of the map in which a name is expected, or of the expected value. */
  readonly path: Path;
  /** A name of a map; a value; or a new entry of a block list, its dash still to be written. */
  readonly role: "key" | "value" | "dash";
  /** Names that the map has before the cursor. */
  readonly names: readonly string[];
  readonly style: "block" | "flow" | "json";
  /** Column at which the entry's own text begins, for what follows on further lines. Block style only. */
  readonly column: number;
  /** Where the text to replace begins and ends; the cursor lies between. */
  readonly start: number;
  readonly end: number;
  /** The typed part of it, without quotes. */
  readonly typed: string;
  /** The opening quote, where one is typed. */
  readonly quote: string | undefined;
  /** Where the text of the cursor's document begins, in a file of several. */
  readonly documentStart: number;
  /** True right after a colon that needs a blank before its value. */
  readonly needsBlank: boolean;
}

/** Undefined in a comment and where nothing can be written. Never throws. */
export function cursorAt(text: string, cursor: number, syntax: Syntax): Cursor | undefined {
  const from = syntax === "yaml" ? startOfDocument(text, cursor) : 0;
  // Before a byte order mark nothing can be written.
  const offset = Math.max(cursor, from);
  const scan = new Scan(text, from, offset);
  if (syntax === "json") scanFlow(scan, true);
  else scanBlock(scan);
  const { spot } = scan;
  if (spot === undefined) return undefined;
  const style = syntax === "json" ? "json" : spot.flow ? "flow" : "block";
  const top = scan.frames.at(-1);
  return {
    path: pathOf(scan.frames, spot),
    role: spot.role,
    names:
      spot.role === "key" && top?.kind === "map" && !spot.newMap ? top.names.filter((name) => name !== spot.own) : [],
    style,
    column: spot.column,
    start: spot.start,
    end: endOf(text, offset, spot),
    typed: text.slice(spot.start + (spot.quote === undefined ? 0 : 1), offset),
    quote: spot.quote,
    documentStart: from,
    needsBlank: spot.needsBlank === true,
  };
}

function pathOf(frames: readonly Frame[], spot: Spot): Path {
  const path = frames.map((frame) => (frame.kind === "list" ? frame.index : (frame.key ?? "")));
  // A name is wanted in the innermost map itself, unless that map is only about to begin.
  if (spot.role === "key" && !spot.newMap && frames.at(-1)?.kind === "map") path.pop();
  return path;
}

/** The document of a YAML file begins after the last `---` line above the cursor. */
function startOfDocument(text: string, offset: number): number {
  const above = text.slice(0, text.lastIndexOf("\n", offset - 1) + 1);
  let start = text.startsWith("\uFEFF") ? 1 : 0;
  for (const match of above.matchAll(/^---(?=\s)[^\n]*\n/gm)) start = match.index + match[0].length;
  return start;
}

/** The rest of the word or of the quoted text, so that accepting a suggestion in its middle replaces it. */
function endOf(text: string, offset: number, spot: Spot): number {
  const line = text.slice(offset).split(/[\r\n]/, 1)[0] ?? "";
  if (spot.quote !== undefined) {
    const rest = new RegExp(`^[^${spot.quote}]*${spot.quote}`).exec(line);
    return offset + (rest?.[0].length ?? 0);
  }
  return offset + (/^[\p{L}\p{N}_#.●○◐-]*/u.exec(line)?.[0].length ?? 0);
}
