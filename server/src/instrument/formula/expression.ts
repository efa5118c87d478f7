/**
 * Reads the arithmetic that may stand in place of a number: `=spread*2 + 1`. The parser of the JavaScript language does
 * the reading; of its grammar only numbers, names, + - * / ** , signs, parentheses and a few functions are let through,
 * and nothing is ever run.
 */
import { parseExpressionAt, type Expression as Syntax } from "acorn";
import { t } from "../../words/translation.js";

/** Half-open UTF-16 offsets into the text that was parsed. */
interface Ranged {
  readonly start: number;
  readonly end: number;
}

export type BinaryOperator = "+" | "-" | "*" | "/" | "**";

export type ExpressionNode = Ranged &
  (
    | { readonly kind: "number"; readonly value: number }
    /** A parameter, or a value of the design: `L1.at` is `["L1", "at"]`, `bore[1].at` is `["bore", 1, "at"]`. */
    | { readonly kind: "name"; readonly steps: readonly [string, ...(string | number)[]] }
    | { readonly kind: "sign"; readonly operator: "+" | "-"; readonly operand: ExpressionNode }
    | {
        readonly kind: "binary";
        readonly operator: BinaryOperator;
        readonly left: ExpressionNode;
        readonly right: ExpressionNode;
      }
    | { readonly kind: "call"; readonly name: FunctionName; readonly arguments: readonly ExpressionNode[] }
  );

export type NameNode = Extract<ExpressionNode, { kind: "name" }>;

export type ExpressionError = Ranged & { readonly message: string };

export type ParsedExpression =
  | { readonly ast: ExpressionNode; readonly error?: undefined }
  | { readonly error: ExpressionError; readonly ast?: undefined };

/** Each function with how many values it takes at least and at most. */
export const FUNCTIONS = {
  min: [1, 32],
  max: [1, 32],
  sqrt: [1, 1],
  abs: [1, 1],
  round: [1, 1],
} as const satisfies Record<string, readonly [number, number]>;
export type FunctionName = keyof typeof FUNCTIONS;

/** Whether a formula can write this as a name. A parameter's has plain letters only, as in the schema. */
export const isFormulaName = (text: string): boolean => /^[\p{L}_][\p{L}\p{N}_]*$/u.test(text);
export const isParameterName = (text: string): boolean => /^[A-Za-z_][A-Za-z0-9_]*$/.test(text);

/** Longer than any formula worth reading; bounds the time and depth of parsing. */
export const LONGEST_EXPRESSION = 500;

/**
 * Parses the text after the `=`. Offsets count from the start of `text`.
 * Never throws: what cannot be read comes back as an error with its place.
 */
export function parseExpression(text: string): ParsedExpression {
  if (text.trim() === "") return failed(0, text.length, t("A number or a formula is missing after the `=`."));
  if (text.length > LONGEST_EXPRESSION) {
    return failed(
      0,
      text.length,
      t`A formula has at most ${LONGEST_EXPRESSION} characters; split it up with \`parameters\`.`,
    );
  }
  try {
    const syntax = parseExpressionAt(text, 0, { ecmaVersion: 2022, preserveParens: true });
    const rest = text.slice(syntax.end);
    if (rest.trim() !== "") {
      const start = syntax.end + (rest.length - rest.trimStart().length);
      return failed(
        start,
        text.length,
        t`\`${text.slice(start).trim()}\` does not belong to the formula.${hint(text)}`,
      );
    }
    return { ast: convert(syntax, text) };
  } catch (error) {
    if (error instanceof Refusal) return { error: { start: error.start, end: error.end, message: error.message } };
    const at = Math.min((error as { pos?: number }).pos ?? 0, text.length);
    const end = Math.min(at + 1, text.length);
    return failed(at < end ? at : Math.max(0, at - 1), end, t`The formula cannot be read from here on.${hint(text)}`);
  }
}

/** Every name an expression refers to, in the order written. */
export function namesIn(ast: ExpressionNode): readonly NameNode[] {
  switch (ast.kind) {
    case "number":
      return [];
    case "name":
      return [ast];
    case "sign":
      return namesIn(ast.operand);
    case "binary":
      return [...namesIn(ast.left), ...namesIn(ast.right)];
    case "call":
      return ast.arguments.flatMap(namesIn);
  }
}

class Refusal extends Error {
  readonly start: number;
  readonly end: number;
  constructor(place: Ranged, message: string) {
    super(message);
    this.start = place.start;
    this.end = place.end;
  }
}

function failed(start: number, end: number, message: string): ParsedExpression {
  return { error: { start, end, message } };
}

/** The most frequent mistakes, named where it looks like one. */
function hint(text: string): string {
  const count = (sign: string) => text.split(sign).length - 1;
  if (count("(") > count(")")) {
    return t(" A parenthesis is not closed; inside { } or [ ] a formula with a comma needs quotes around it.");
  }
  if (count(")") > count("(")) return t(" A parenthesis is closed that was never opened.");
  if (/-\s*[\w.]+\s*\*\*/.test(text)) return t(" Before ** a sign needs parentheses: (-2)**2 or -(2**2).");
  if (text.includes("%")) return t(" Write 5 % as 0.05.");
  return "";
}

const BINARY = new Set<string>(["+", "-", "*", "/", "**"]);

function convert(syntax: Syntax, text: string): ExpressionNode {
  const { start, end } = syntax;
  switch (syntax.type) {
    case "ParenthesizedExpression":
      return convert(syntax.expression, text);
    case "Literal":
      if (typeof syntax.value === "number" && /^(\d+\.?\d*|\.\d+)(e[+-]?\d+)?$/i.test(syntax.raw ?? "")) {
        return { kind: "number", value: syntax.value, start, end };
      }
      throw new Refusal(syntax, t`\`${text.slice(start, end)}\` is not a number. Write it like 12.5.`);
    case "Identifier":
    case "MemberExpression":
      return { kind: "name", steps: stepsOf(syntax, text), start, end };
    case "UnaryExpression":
      if (syntax.operator === "-" || syntax.operator === "+") {
        return { kind: "sign", operator: syntax.operator, operand: convert(syntax.argument, text), start, end };
      }
      throw new Refusal(
        syntax,
        t`\`${syntax.operator}\` cannot be used here; a formula may use + - * / ** and parentheses.`,
      );
    case "BinaryExpression":
      if (BINARY.has(syntax.operator) && syntax.left.type !== "PrivateIdentifier") {
        const operator = syntax.operator as BinaryOperator;
        return {
          kind: "binary",
          operator,
          left: convert(syntax.left, text),
          right: convert(syntax.right, text),
          start,
          end,
        };
      }
      throw new Refusal(
        syntax,
        t`\`${syntax.operator}\` cannot be used here; a formula may use + - * / ** and parentheses.${hint(text)}`,
      );
    case "CallExpression":
      return convertCall(syntax, text);
    case "SequenceExpression":
      throw new Refusal(
        syntax,
        t("A comma may only separate the values of min or max. Write decimals with a point: 3.5."),
      );
    default:
      throw new Refusal(
        syntax,
        t`\`${text.slice(start, end)}\` is not arithmetic; a formula may use + - * / ** , parentheses, ${functionList()}.`,
      );
  }
}

function functionList(): string {
  return Object.keys(FUNCTIONS).join(", ");
}

function convertCall(syntax: Extract<Syntax, { type: "CallExpression" }>, text: string): ExpressionNode {
  const { start, end, callee } = syntax;
  const name = text.slice(callee.start, callee.end);
  if (callee.type !== "Identifier" || !Object.hasOwn(FUNCTIONS, name) || syntax.optional) {
    throw new Refusal(callee, t`There is no function \`${name}\`; there are ${functionList()}.`);
  }
  const [least, most] = FUNCTIONS[name as FunctionName];
  const given = syntax.arguments.length;
  if (given < least || given > most) {
    throw new Refusal(
      syntax,
      most === 1
        ? t`\`${name}\` takes 1 value, not ${given}.`
        : t`\`${name}\` takes ${least} to ${most} values, not ${given}.`,
    );
  }
  const values = syntax.arguments.map((argument) => {
    if (argument.type === "SpreadElement") throw new Refusal(argument, t("`...` is not arithmetic."));
    return convert(argument, text);
  });
  return { kind: "call", name: name as FunctionName, arguments: values, start, end };
}

/** `bore[1].at` as a list of steps; anything but plain names and whole-number places is refused. */
function stepsOf(syntax: Syntax, text: string): [string, ...(string | number)[]] {
  if (syntax.type === "Identifier") return [syntax.name];
  if (syntax.type === "MemberExpression" && !syntax.optional && syntax.object.type !== "Super") {
    const { property } = syntax;
    const before = stepsOf(syntax.object, text);
    if (!syntax.computed && property.type === "Identifier") return [...before, property.name];
    if (syntax.computed && property.type === "Literal" && /^\d+$/.test(property.raw ?? "")) {
      return [...before, Number(property.raw)];
    }
  }
  throw new Refusal(
    syntax,
    t`\`${text.slice(syntax.start, syntax.end)}\` names no value. Write it like L1.at or bore[1].at.`,
  );
}
