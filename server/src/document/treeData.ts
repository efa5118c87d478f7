/** The plain data of a tree: maps, lists and scalars, as JSON would hold them. */
import type { TreeNode } from "./tree.js";

/** The first of several entries with one key counts, as it does for `nodeAt`. */
export function dataOf(node: TreeNode | undefined): unknown {
  switch (node?.kind) {
    case "scalar":
      return node.value;
    case "list":
      return node.items.map(dataOf);
    case "map":
      // fromEntries makes own properties even of `__proto__`; reversed, so that the first entry of a key is the last set.
      return sorted(node.entries.map(({ key, value }) => [key, value] as const));
    case undefined:
      return undefined;
  }
}

function sorted(entries: readonly (readonly [string, TreeNode])[]): Record<string, unknown> {
  const first = new Map<string, TreeNode>();
  for (const [key, value] of entries) if (!first.has(key)) first.set(key, value);
  return Object.fromEntries([...first].map(([key, value]) => [key, dataOf(value)]));
}
