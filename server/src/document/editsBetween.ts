/** What was changed between two versions of one document, value by value. */
import type { Path } from "../instrument/finding.js";
import type { DesignDocument } from "./designFile.js";
import type { TextEdit } from "./edits.js";
import { nodeAt, type TreeNode } from "./tree.js";

/** Edits of the old text that make every scalar of it what it is in the new one; entries added or gone are not seen. */
export function editsBetween(before: DesignDocument, after: DesignDocument): readonly TextEdit[] {
  const edits: TextEdit[] = [];
  const visit = (node: TreeNode, path: Path): void => {
    if (node.source !== undefined && node.kind !== "scalar") return;
    if (node.kind === "map") {
      for (const { key, value, merged } of node.entries) if (!merged) visit(value, [...path, key]);
    } else if (node.kind === "list") {
      for (const [i, item] of node.items.entries()) visit(item, [...path, i]);
    } else {
      const now = nodeAt(after.root, path);
      if (now?.kind !== "scalar") return;
      const [old, written] = [textOf(before, node), textOf(after, now)];
      if (old !== written) edits.push({ span: node.span, text: written });
    }
  };
  if (before.root !== undefined) visit(before.root, []);
  return edits;
}

function textOf({ text }: DesignDocument, { span }: TreeNode): string {
  return text.slice(span.start, span.end);
}
