/** Reads YAML's block style line by line up to the cursor. */
import { scanFlow } from "./flowScan.js";
import type { Frame, Scan, Spot } from "./scan.js";

/** Sets the scan's frames and, where something can be written at the cursor, its spot. */
export function scanBlock(scan: Scan): void {
  for (;;) {
    const last = endOfLine(scan.text, scan.position) >= scan.end;
    readLine(scan, last);
    if (scan.spot !== undefined || last || scan.atEnd) return;
    scan.position = Math.min(scan.end, endOfLine(scan.text, scan.position) + 1);
  }
}

function endOfLine(text: string, from: number): number {
  const end = text.indexOf("\n", from);
  return end < 0 ? text.length : end;
}

/**
 * One line from its start; `last` where the cursor is on it. Leaves the position anywhere on the line, or on a later one to
 * which a bracket or a quoted text goes on.
 */
function readLine(scan: Scan, last: boolean): void {
  const { text, position: start } = scan;
  scan.position = skipBlanks(scan, start);
  const head = text.charAt(scan.position);
  if ((!last && /[\r\n]/.test(head)) || (head === "#" && !scan.atEnd)) return;
  let column = scan.position - start;
  while (isDash(scan)) {
    beginItem(scan, column);
    scan.position = skipBlanks(scan, scan.position + 1);
    column = scan.position - start;
  }
  const name = nameHere(scan);
  if (name === undefined) {
    plainContent(scan, column, last);
    return;
  }
  beginEntry(scan, column, name.name);
  scan.position = name.after;
  readValue(scan, last, start);
}

function skipBlanks(scan: Scan, from: number): number {
  let position = from;
  while (position < scan.end && /[ \t]/.test(scan.text.charAt(position))) position++;
  return position;
}

function isDash(scan: Scan): boolean {
  const { text, position, end } = scan;
  return (
    position < end && text.charAt(position) === "-" && (position + 1 >= end || /\s/.test(text.charAt(position + 1)))
  );
}

/** Closes what lies deeper than `column`; a list at the same column stays only for another of its items. */
function closeTo(scan: Scan, column: number, forItem: boolean): Frame | undefined {
  for (;;) {
    const top = scan.frames.at(-1);
    if (top === undefined) return undefined;
    if (top.indent < column || (top.indent === column && (forItem || top.kind === "map"))) return top;
    scan.frames.pop();
  }
}

function beginItem(scan: Scan, column: number): void {
  const top = closeTo(scan, column, true);
  if (top?.kind === "list" && top.indent === column) top.index++;
  else scan.push("list", column, false);
}

function beginEntry(scan: Scan, column: number, name: string): void {
  const top = closeTo(scan, column, false);
  const map = top?.kind === "map" && top.indent === column ? top : scan.push("map", column, false);
  map.key = name;
  map.hasValue = false;
  map.names.push(name);
}

/** A name and its colon, both before the cursor. */
function nameHere(scan: Scan): { readonly name: string; readonly after: number } | undefined {
  const line = scan.text.slice(scan.position, Math.min(scan.end, endOfLine(scan.text, scan.position)));
  const match =
    /^("(?:[^"\\]|\\.)*"|'(?:[^']|'')*'|[^\s"'[\]{},#&*!|>%@`-][^\r\n]*?|-[^\s][^\r\n]*?|<<)\s*:(?=\s|$)/.exec(line);
  if (match?.[1] === undefined) return undefined;
  return { name: match[1].replace(/^(["'])(.*)\1$/, "$2"), after: scan.position + match[0].length };
}

function readValue(scan: Scan, last: boolean, lineStart: number): void {
  const colon = scan.position;
  scan.position = skipBlanks(scan, colon);
  const { position } = scan;
  const column = position - lineStart;
  if (scan.atEnd) {
    if (last) scan.spot = { role: "value", start: position, flow: false, column, needsBlank: position === colon };
    return;
  }
  const char = scan.text.charAt(position);
  if (/[#\r\n]/.test(char)) return;
  const top = scan.frames.at(-1);
  if (top !== undefined) top.hasValue = true;
  if (char === "{" || char === "[") scanFlow(scan, false);
  else if (char === '"' || char === "'") {
    if (scan.quoted() === undefined) scan.spot = { role: "value", start: position, flow: false, column, quote: char };
  } else if (char === "|" || char === ">") {
    if (!last) skipBlockText(scan, top?.indent ?? 0);
  } else if (last && !/\s#/.test(scan.text.slice(position, scan.end))) {
    scan.spot = { role: "value", start: position, flow: false, column };
  }
}

/** A literal or folded text goes on while its lines are blank or deeper than its name. Stops on its last line. */
function skipBlockText(scan: Scan, indent: number): void {
  for (;;) {
    const next = endOfLine(scan.text, scan.position) + 1;
    if (next > scan.end) {
      scan.position = scan.end; // the cursor is in the text itself
      return;
    }
    const from = skipBlanks(scan, next);
    const blank = /[\r\n]/.test(scan.text.charAt(from));
    if (!blank && from - next <= indent) return;
    scan.position = next;
  }
}

/** Text without a colon: an item of a list, or a name that is being typed. */
function plainContent(scan: Scan, column: number, last: boolean): void {
  const char = scan.text.charAt(scan.position);
  if (!scan.atEnd && (char === "{" || char === "[")) {
    closeTo(scan, column, false);
    scanFlow(scan, false);
  } else if (last) scan.spot = newEntry(scan, scan.position, column);
}

function newEntry(scan: Scan, start: number, column: number): Spot | undefined {
  const char = scan.text.charAt(start);
  const quote = start < scan.end && (char === '"' || char === "'") ? char : undefined;
  const place = { start, flow: false, column, quote };
  // At the dash's own column another item of the list may begin.
  const above = scan.frames.findLast(({ indent }) => indent <= column);
  if (above?.kind === "list" && above.indent === column && !afterDash(scan, start)) {
    closeTo(scan, column, true);
    const parent = scan.frames.at(-2);
    if (parent?.indent !== column) {
      above.index++;
      return { ...place, role: "dash" };
    }
  }
  const top = closeTo(scan, column, false);
  if (top === undefined) return scan.frames.length === 0 ? { ...place, role: "key", newMap: true } : undefined;
  if (top.kind === "map" && top.indent === column) return { ...place, role: "key" };
  if (top.kind === "map")
    return top.hasValue || top.key === undefined ? undefined : { ...place, role: "key", newMap: true };
  return afterDash(scan, start) ? { ...place, role: "key", newMap: true } : undefined;
}

/** Whether nothing but the dash of an item stands between the line's start and `start`. */
function afterDash({ text }: Scan, start: number): boolean {
  const line = text.slice(text.lastIndexOf("\n", start - 1) + 1, start);
  return /^[ \t]*(-[ \t]+)*-[ \t]*$/.test(line);
}
