/** Colours by meaning: our own words, notes, the signs of fingerings by their state, and what stands in expressions. */
import { type Range, type SemanticTokens, SemanticTokensBuilder } from "vscode-languageserver";
import type { DesignDocument } from "../document/designFile.js";
import { spanWithin } from "../document/place.js";
import type { Span } from "../document/span.js";
import type { TreeNode } from "../document/tree.js";
import type { Path } from "../instrument/finding.js";
import { signOffsets } from "../instrument/fingerings.js";
import { type ExpressionNode, parseExpression } from "../instrument/formula/expression.js";
import { INSTRUMENT_SCHEMA, type PropertySchema, schemaOfStep } from "../instrument/schema.js";
import { parseNote } from "../music/note.js";
import { type DesignContext, rangeOf } from "./designContext.js";
import { MODIFIERS, type Modifier, type TokenType, TYPES } from "./tokensLegend.js";

interface Token {
  readonly span: Span;
  readonly type: TokenType;
  readonly modifier?: Modifier;
}

/** Most nodes visited; a file with more is coloured by its syntax alone. */
const MOST_TOKENS = 20_000;

export function semanticTokens(context: DesignContext, within?: Range): SemanticTokens {
  const wanted = within && { start: context.text.offsetAt(within.start), end: context.text.offsetAt(within.end) };
  const tokens: Token[] = [];
  for (const document of context.file.documents) {
    if (wanted !== undefined && (document.span.start > wanted.end || document.span.end < wanted.start)) continue;
    if (document.root !== undefined) visit(document, document.root, INSTRUMENT_SCHEMA, [], tokens);
  }
  const builder = new SemanticTokensBuilder();
  const seen = ({ span }: Token) => wanted === undefined || (span.end > wanted.start && span.start < wanted.end);
  const inOrder = tokens.filter(seen).sort((a, b) => a.span.start - b.span.start);
  for (const { span, type, modifier } of inOrder) {
    const { start, end } = rangeOf(context, span);
    if (start.line !== end.line) continue; // a token stands on one line
    const bits = modifier === undefined ? 0 : 1 << MODIFIERS.indexOf(modifier);
    builder.push(start.line, start.character, end.character - start.character, TYPES.indexOf(type), bits);
  }
  return builder.build();
}

function visit(
  document: DesignDocument,
  node: TreeNode,
  schema: PropertySchema | undefined,
  path: Path,
  tokens: Token[],
): void {
  if (node.source !== undefined || tokens.length > MOST_TOKENS) return;
  if (node.kind === "scalar") {
    if (typeof node.value === "string") tokens.push(...textTokens(document, node.value, path));
    return;
  }
  if (node.kind === "list") {
    node.items.forEach((item, i) => {
      visit(document, item, schema?.items, [...path, i], tokens);
    });
    return;
  }
  for (const { key, keySpan, value, merged } of node.entries) {
    if (merged) continue;
    const below = schema && schemaOfStep(schema, key);
    if (path[0] === "parameters") tokens.push({ span: keySpan, type: "parameter", modifier: "declaration" });
    else if (below !== undefined) tokens.push({ span: keySpan, type: "property" });
    visit(document, value, below, [...path, key], tokens);
  }
}

function textTokens(document: DesignDocument, value: string, path: Path): readonly Token[] {
  const last = path.at(-1);
  const part = (start: number, end: number, type: TokenType, modifier?: Modifier): Token[] => {
    const span = spanWithin(document, path, [start, end]);
    return span === undefined ? [] : [{ span, type, ...(modifier === undefined ? {} : { modifier }) }];
  };
  const equals = /^\s*=/.exec(value)?.[0].length;
  if (equals !== undefined) {
    const { ast } = parseExpression(value.slice(equals));
    return ast === undefined
      ? []
      : expressionTokens(ast).flatMap(({ start, end, type }) => part(start + equals, end + equals, type));
  }
  if (last === "holes") {
    const offsets = signOffsets(value);
    return (
      offsets?.flatMap((offset) => part(offset, offset + 1, "fingeringSign", STATES.get(value.charAt(offset)))) ?? []
    );
  }
  if ((last === "note" || last === "key") && parseNote(value) !== undefined) return part(0, value.length, "enumMember");
  return [];
}

const STATES: ReadonlyMap<string, Modifier> = new Map([
  ...["●", "x", "X"].map((sign) => [sign, "closed"] as const),
  ...["○", "o", "O"].map((sign) => [sign, "open"] as const),
  ...["◐", "/"].map((sign) => [sign, "half"] as const),
]);

function expressionTokens(ast: ExpressionNode): readonly { start: number; end: number; type: TokenType }[] {
  const { start, end } = ast;
  switch (ast.kind) {
    case "number":
      return [{ start, end, type: "number" }];
    case "name":
      return [{ start, end, type: "parameter" }];
    case "sign":
      return expressionTokens(ast.operand);
    case "binary":
      return [...expressionTokens(ast.left), ...expressionTokens(ast.right)];
    case "call":
      return [{ start, end: start + ast.name.length, type: "function" }, ...ast.arguments.flatMap(expressionTokens)];
  }
}
