/** Reads JSON text, tolerantly: comments and stray commas are reported, and the rest is still read. */
import { type Node, type ParseError, parseTree, printParseErrorCode } from "jsonc-parser";
import { t } from "../words/translation.js";
import { duplicateKeys } from "./duplicateKeys.js";
import type { ParsedDocument, TextProblem } from "./parsed.js";
import type { Span } from "./span.js";
import type { MapEntry, Scalar, TreeNode } from "./tree.js";

const MOST_COMPLAINTS = 10;

export function parseJson(text: string): ParsedDocument {
  const errors: ParseError[] = [];
  // A byte order mark is not part of JSON; a blank in its place keeps every offset.
  const plain = text.startsWith("\uFEFF") ? ` ${text.slice(1)}` : text;
  const node = parseTree(plain, errors, { disallowComments: true, allowTrailingComma: false, allowEmptyContent: true });
  const problems: TextProblem[] = firstAtEach(errors)
    .slice(0, MOST_COMPLAINTS)
    .map(({ error, offset, length }) => ({
      code: "file/syntax",
      severity: "error",
      message: t(MESSAGES[printParseErrorCode(error)] ?? "This cannot be read as JSON."),
      span: within(offset, length, text),
    }));
  const root = node && build(node, text, problems);
  return { span: { start: 0, end: text.length }, root, problems };
}

const MESSAGES: Readonly<Record<string, string>> = {
  InvalidSymbol: "Text needs double quotes around it in JSON; only numbers, true, false and null go without.",
  InvalidNumberFormat:
    "This is not a JSON number. Write it like 3.5, without a + sign and with a digit before the point.",
  PropertyNameExpected: "The name of a property in double quotes belongs here. Is there a comma too many?",
  ValueExpected: "A value is missing here, or there is a comma too many.",
  ColonExpected: "A colon belongs between a property's name and its value.",
  CommaExpected: "A comma is missing between two entries.",
  CloseBraceExpected: "The closing } is missing.",
  CloseBracketExpected: "The closing ] is missing.",
  EndOfFileExpected: "The design ends before this; JSON holds one design per file. Remove the rest.",
  InvalidCommentToken: "JSON has no comments. Put the text into `remark`, or write the design as YAML.",
  UnexpectedEndOfComment: "This comment is not closed, and JSON has no comments anyway.",
  UnexpectedEndOfString: "The closing quote is missing.",
  UnexpectedEndOfNumber: "A digit is missing.",
  InvalidUnicode: "\\u must be followed by four hexadecimal digits.",
  InvalidEscapeCharacter:
    "A backslash begins a special character, and this one is not known. Write \\\\ for a backslash.",
  InvalidCharacter: "There is an invisible character here, such as a line break inside quotes. Remove it.",
};

function within(offset: number, length: number, text: string): Span {
  const start = Math.max(0, Math.min(offset, text.length));
  const end = Math.min(text.length, start + Math.max(length, 1));
  return start === end && start > 0 ? { start: start - 1, end } : { start, end };
}

function build(node: Node, text: string, problems: TextProblem[]): TreeNode {
  const span = { start: node.offset, end: node.offset + node.length };
  if (node.type === "object") {
    const entries = (node.children ?? []).flatMap((property) => entryOf(property, text, problems) ?? []);
    for (const problem of duplicateKeys(entries)) problems.push(problem);
    return { kind: "map", entries, flow: true, span };
  }
  if (node.type === "array") {
    return {
      kind: "list",
      items: (node.children ?? []).map((child) => build(child, text, problems)),
      flow: true,
      span,
    };
  }
  return { kind: "scalar", value: (node.value ?? null) as Scalar, raw: text.slice(span.start, span.end), span };
}

function entryOf({ children }: Node, text: string, problems: TextProblem[]): MapEntry | undefined {
  const [key, value] = children ?? [];
  if (key === undefined) return undefined;
  const keySpan = { start: key.offset, end: key.offset + key.length };
  // While the value is still to be typed, it stands after the colon.
  const colon = /^\s*:/.exec(text.slice(keySpan.end, keySpan.end + 100))?.[0].length ?? 0;
  const after = { start: keySpan.end + colon, end: keySpan.end + colon };
  const node: TreeNode = value ? build(value, text, problems) : { kind: "scalar", value: null, raw: "", span: after };
  return { key: String(key.value), keySpan, value: node, merged: false };
}

/** To the parser an extra comma is a missing name and a missing value: the first of several faults at one place says it. */
function firstAtEach(errors: readonly ParseError[]): readonly ParseError[] {
  const seen = new Set<number>();
  return errors.filter(({ offset }) => !seen.has(offset) && seen.add(offset));
}
