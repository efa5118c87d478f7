/** Works out an expression. IEEE double arithmetic, as JavaScript itself does it. */

import { t } from "../../words/translation.js";
import type { BinaryOperator, ExpressionNode, FunctionName, NameNode } from "./expression.js";

export type EvaluationFault = {
  readonly code: "expression/division-by-zero" | "expression/not-finite";
  readonly message: string;
  /** Offsets into the expression's text. */
  readonly start: number;
  readonly end: number;
};

export type Evaluation =
  | { readonly value: number; readonly fault?: undefined }
  /** Without a fault: a name it refers to has no value, which is reported elsewhere. */
  | { readonly value: undefined; readonly fault?: EvaluationFault };

/** Gives the number behind a name, or undefined where it has none. */
export type NameResolver = (name: NameNode) => number | undefined;

/** The value of an expression, or the first fault met from the left. */
export function evaluate(ast: ExpressionNode, resolve: NameResolver): Evaluation {
  switch (ast.kind) {
    case "number":
      return finite(ast, ast.value);
    case "name": {
      const value = resolve(ast);
      return value === undefined ? { value } : finite(ast, value);
    }
    case "sign": {
      const operand = evaluate(ast.operand, resolve);
      if (operand.value === undefined) return operand;
      return { value: ast.operator === "-" ? -operand.value : operand.value };
    }
    case "binary": {
      const left = evaluate(ast.left, resolve);
      if (left.value === undefined) return left;
      const right = evaluate(ast.right, resolve);
      if (right.value === undefined) return right;
      if (ast.operator === "/" && right.value === 0) {
        const { start, end } = ast.right;
        return fault("expression/division-by-zero", t("This is 0, and nothing can be divided by 0."), start, end);
      }
      return finite(ast, OPERATORS[ast.operator](left.value, right.value));
    }
    case "call": {
      const values: number[] = [];
      for (const argument of ast.arguments) {
        const result = evaluate(argument, resolve);
        if (result.value === undefined) return result;
        values.push(result.value);
      }
      return finite(ast, CALLS[ast.name](...values));
    }
  }
}

const OPERATORS: Record<BinaryOperator, (a: number, b: number) => number> = {
  "+": (a, b) => a + b,
  "-": (a, b) => a - b,
  "*": (a, b) => a * b,
  "/": (a, b) => a / b,
  "**": (a, b) => a ** b,
};

const CALLS: Record<FunctionName, (...values: number[]) => number> = {
  min: Math.min,
  max: Math.max,
  sqrt: (a = 0) => Math.sqrt(a),
  abs: (a = 0) => Math.abs(a),
  round: (a = 0) => Math.round(a),
};

function fault(code: EvaluationFault["code"], message: string, start: number, end: number): Evaluation {
  return { value: undefined, fault: { code, message, start, end } };
}

function finite({ start, end }: ExpressionNode, value: number): Evaluation {
  if (Number.isFinite(value)) return { value };
  const message = Number.isNaN(value)
    ? t("This has no value: for example, it is the root of a negative number.")
    : t("This is too large for a number.");
  return fault("expression/not-finite", message, start, end);
}
