/** Reads `{…}` and `[…]`, of YAML's flow style and of JSON, up to the cursor. */
import type { Frame, Scan, Spot } from "./scan.js";

/**
 * From the bracket at the scan's position to the one that closes it or to the cursor; then the scan's spot is set unless the
 * cursor is where nothing can stand. In JSON the whole text is one such value.
 */
export function scanFlow(scan: Scan, json: boolean): void {
  const depth = scan.frames.length;
  const state: State = { json, phase: "value" };
  while (!scan.atEnd) {
    step(scan, state);
    if (scan.spot !== undefined || state.inComment) return;
    if (!json && scan.frames.length <= depth) return;
  }
  if (state.phase === "after") return;
  scan.spot = spotAt(scan, state, scan.end);
}

interface State {
  readonly json: boolean;
  /** What may stand next. */
  phase: "key" | "colon" | "value" | "after";
  inComment?: boolean;
}

function step(scan: Scan, state: State): void {
  const char = scan.text.charAt(scan.position);
  if (/\s|\uFEFF/.test(char)) scan.position++;
  else if (char === "{" || char === "[") open(scan, state, char);
  else if (char === "}" || char === "]") close(scan, state);
  else if (char === ",") next(scan, state);
  else if (char === ":") colon(scan, state);
  else if (isComment(scan, char, state.json)) state.inComment = scan.comment();
  else if (char === '"' || (char === "'" && !state.json)) quotedToken(scan, state, char);
  else plainToken(scan, state);
}

function isComment(scan: Scan, char: string, json: boolean): boolean {
  if (json) return scan.text.startsWith("//", scan.position);
  return char === "#" && /\s/.test(scan.text.charAt(scan.position - 1));
}

function open(scan: Scan, state: State, char: string): void {
  scan.push(char === "{" ? "map" : "list", 0, true);
  state.phase = char === "{" ? "key" : "value";
  scan.position++;
}

function close(scan: Scan, state: State): void {
  if (scan.frames.at(-1)?.flow) scan.frames.pop();
  state.phase = "after";
  scan.position++;
}

function next(scan: Scan, state: State): void {
  const top = scan.frames.at(-1);
  if (top?.kind === "list") top.index++;
  if (top?.kind === "map") top.key = undefined;
  state.phase = top?.kind === "map" ? "key" : "value";
  scan.position++;
}

function colon(scan: Scan, state: State): void {
  state.phase = "value";
  scan.position++;
}

function quotedToken(scan: Scan, state: State, quote: string): void {
  const start = scan.position;
  const content = scan.quoted();
  if (content === undefined) scan.spot = spotAt(scan, state, start, quote);
  else afterToken(scan, state, content);
}

function plainToken(scan: Scan, state: State): void {
  const start = scan.position;
  // A character that ends a plain value may begin one where nothing else can be read: the scan must advance.
  do scan.position++;
  while (!scan.atEnd && !endsPlain(scan, state));
  if (scan.atEnd) scan.spot = spotAt(scan, state, start);
  else afterToken(scan, state, scan.text.slice(start, scan.position).trim());
}

function endsPlain(scan: Scan, state: State): boolean {
  const char = scan.text.charAt(scan.position);
  if (/[,[\]{}\r\n]/.test(char) || (state.json && /\s/.test(char))) return true;
  if (char === ":") return state.json || /[\s,[\]{}]/.test(scan.text.charAt(scan.position + 1));
  return char === "#" && /\s/.test(scan.text.charAt(scan.position - 1));
}

function afterToken(scan: Scan, state: State, content: string): void {
  const top: Frame | undefined = scan.frames.at(-1);
  if (state.phase === "key" && top?.kind === "map") {
    top.key = content;
    top.names.push(content);
    state.phase = "colon";
  } else state.phase = "after";
}

function spotAt(scan: Scan, state: State, start: number, quote?: string): Spot | undefined {
  if (state.phase === "colon" || state.phase === "after") return undefined;
  const needsBlank = scan.text.charAt(start - 1) === ":" && state.phase === "value" && quote === undefined;
  return { role: state.phase, start, flow: true, column: 0, quote, needsBlank: needsBlank && !state.json };
}
