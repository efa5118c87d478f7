import type { DesignDocument } from "../document/designFile.js";
import { setNumber, setText, type TextEdit } from "../document/edits.js";
import { nodeAt } from "../document/tree.js";
import type { Path } from "../instrument/finding.js";

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
  const present = document.resolution.numbers.find((number) => samePath(number.path, path));
  if (node?.kind !== "scalar" || typeof node.value !== "string" || present?.expression === undefined)
    return setNumber(document, path, value, decimals);
  const difference = Number((value - present.value).toFixed(decimals));
  if (difference === 0) return [];
  const sign = difference < 0 ? "-" : "+";
  return setText(document, path, `${node.value.trimEnd()} ${sign} ${Math.abs(difference)}`);
}

function samePath(a: Path, b: Path): boolean {
  return a.length === b.length && a.every((step, i) => step === b[i]);
}
