/** One tree for YAML and JSON: plain values that know where they stand in the text. */
import type { Path } from "../instrument/finding.js";
import type { Span } from "./span.js";

export type Scalar = string | number | boolean | null;

interface Placed {
  /** Where the value is written *here*: for an alias, the alias itself (`*name`). */
  readonly span: Span;
  /** Set where an alias or merge key brought the value in: where its source is written. */
  readonly source?: Span;
}

export interface ScalarNode extends Placed {
  readonly kind: "scalar";
  readonly value: Scalar;
  /** The exact text, quotes included. */
  readonly raw: string;
  /** An explicit YAML tag, written out in full: `tag:yaml.org,2002:float`. */
  readonly tag?: string;
}

export interface MapEntry {
  readonly key: string;
  readonly keySpan: Span;
  readonly value: TreeNode;
  /** True where a YAML merge key (`<<`) brought it in. */
  readonly merged: boolean;
}

export interface MapNode extends Placed {
  readonly kind: "map";
  readonly entries: readonly MapEntry[];
  /** `{…}` rather than block style. Always true in JSON. */
  readonly flow: boolean;
}

export interface ListNode extends Placed {
  readonly kind: "list";
  readonly items: readonly TreeNode[];
  readonly flow: boolean;
}

export type TreeNode = ScalarNode | MapNode | ListNode;

/** The node at `path`, or undefined where nothing is written there. */
export function nodeAt(root: TreeNode | undefined, path: Path): TreeNode | undefined {
  let node = root;
  for (const step of path) {
    if (node?.kind === "map") node = node.entries.find((entry) => entry.key === step)?.value;
    else if (node?.kind === "list" && typeof step === "number") node = node.items[step];
    else return undefined;
  }
  return node;
}
