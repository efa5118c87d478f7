/** What a change of key, or a refit, did to every number of a design: the table of old and new. */
import type { DesignDocument, DesignFile } from "../../document/designFile.js";
import { changeLine, type DimensionChange, dimensionChanges } from "../../document/dimensionChanges.js";
import type { TextEdit } from "../../document/textEdit.js";
import { nodeAt } from "../../document/tree.js";
import { dataOf } from "../../document/treeData.js";
import { documentIn } from "./newTargets.js";

/** In the order of the design; keys and notes left out, which are reported separately. @param text the whole file after the change */
export function changesBetween(file: DesignFile, before: DesignDocument, text: string): readonly DimensionChange[] {
  if (text === file.text) return [];
  const { document: after } = documentIn(text, file.syntax, before.index);
  const described = (document: DesignDocument) => ({ document, data: dataOf(document.root) });
  return dimensionChanges(described(before), described(after)).filter(({ next }) => typeof next === "number");
}

/**
 * The changes beside the edits that make them.
 * @returns `made`, for each edit, the lines of what it writes; `followed`, of what only a formula changed
 */
export function changesByEdit(
  { root }: DesignDocument,
  edits: readonly TextEdit[],
  changes: readonly DimensionChange[],
): { readonly made: readonly (readonly string[])[]; readonly followed: readonly string[] } {
  const placed = changes.map((change) => {
    const span = nodeAt(root, change.path)?.span;
    const inside = ({ span: { start, end } }: TextEdit) => span !== undefined && start >= span.start && end <= span.end;
    return { line: changeLine(change), edit: edits.findIndex(inside) };
  });
  const linesOf = (edit: number) => placed.filter((each) => each.edit === edit).map(({ line }) => line);
  return { made: edits.map((_, i) => linesOf(i)), followed: linesOf(-1) };
}
