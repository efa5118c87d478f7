import type { DesignDocument } from "../../document/designFile.js";
import { numberAt } from "../../document/designNumbers.js";
import { setNumber, setText } from "../../document/edits.js";
import type { TextEdit } from "../../document/textEdit.js";
import { nodeAt } from "../../document/tree.js";
import type { Path } from "../../instrument/finding.js";
import { parseExpression } from "../../instrument/formula/expression.js";
import { drawnDecimals, toDrawn } from "../wording.js";

/**
 * Edits that make the number at `path` the given one, rounded to `decimals`. An expression stays an expression: the
 * difference from its present value is added to it, so that it goes on following its parameters.
 */
export function changeNumber(
  document: DesignDocument,
  path: Path,
  value: number,
  decimals: number,
): readonly TextEdit[] {
  const node = nodeAt(document.root, path);
  const present = numberAt(document, path);
  if (node?.kind !== "scalar" || typeof node.value !== "string" || present?.expression === undefined)
    return setNumber(document, path, value, decimals);
  const difference = Number((value - present.value).toFixed(decimals));
  if (difference === 0) return [];
  return setText(document, path, withDifference(node.value, difference, decimals));
}

/** The same with a length as the drawing's rounding has it. @param value in the file's unit */
export function changeDrawn(document: DesignDocument, path: Path, value: number): readonly TextEdit[] {
  const { instrument } = document.resolution;
  return changeNumber(document, path, toDrawn(value, instrument), drawnDecimals(instrument));
}

/** `=a + 13` and 2 make `=a + 15`; without a number at the end to take the difference, it is added as one. */
function withDifference(text: string, difference: number, decimals: number): string {
  const start = text.indexOf("=") + 1;
  const { ast } = parseExpression(text.slice(start));
  if (ast?.kind === "binary" && (ast.operator === "+" || ast.operator === "-") && ast.right.kind === "number") {
    const { right, left, operator } = ast;
    const term = (operator === "-" ? -1 : 1) * right.value + difference;
    const rounded = Number(term.toFixed(decimals));
    const head = text.slice(0, start + left.end);
    // Parentheses around the left side end after it.
    const between = /([\s)]*)[+-]\s*$/.exec(text.slice(start + left.end, start + right.start))?.[1];
    if (between !== undefined)
      return rounded === 0
        ? (head + between).trimEnd()
        : `${head}${between}${rounded < 0 ? "-" : "+"} ${Math.abs(rounded)}${text.slice(start + right.end)}`;
  }
  return `${text.trimEnd()} ${difference < 0 ? "-" : "+"} ${Math.abs(difference)}`;
}
