/** The numbers of a read design, by their place and by their name. */
import type { Path } from "../instrument/finding.js";
import { Names } from "../instrument/formula/names.js";
import type { ResolvedNumber } from "../instrument/formula/resolvedNumber.js";
import { pathKey } from "../instrument/path.js";
import type { DesignDocument } from "./designFile.js";
import { dataOf } from "./treeData.js";

/** The number at `path` as it was worked out; undefined where there is none. */
export function numberAt({ resolution }: Pick<DesignDocument, "resolution">, path: Path): ResolvedNumber | undefined {
  const { numbers } = resolution;
  const index = byPath.get(numbers) ?? new Map(numbers.map((number) => [pathKey(number.path), number]));
  byPath.set(numbers, index);
  return index.get(pathKey(path));
}

const byPath = new WeakMap<readonly ResolvedNumber[], ReadonlyMap<string, ResolvedNumber>>();

/** What the names in the design's expressions refer to. */
export function namesOf({ root, resolution }: Pick<DesignDocument, "root" | "resolution">): Names {
  return new Names(dataOf(root), new Map(resolution.numbers.map((number) => [pathKey(number.path), number])));
}
