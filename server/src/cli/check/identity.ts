/** The identity of a finding, to be recognized in a later version of its file. */
import type { DesignDocument, PlacedFinding } from "../../document/designFile.js";
import { dataOf } from "../../document/treeData.js";
import { own, valueAt } from "../../instrument/path.js";

/** What distinguishes one thing of a list from the others, in words that stay when another is put before it. */
const TOLD_BY: Readonly<Record<string, readonly string[]>> = {
  holes: ["name"],
  bore: ["name"],
  pipes: ["note", "degree"],
  fingerings: ["note", "degree", "register", "holes"],
  measured: ["note", "holes"],
};

/** Rule and place, `pitch/out-of-tune holes[L2].at`; of one among several designs in the file with that one's name. */
export function identityOf(
  { root, index }: Pick<DesignDocument, "root" | "index">,
  isAlone: boolean,
  { code, path }: Pick<PlacedFinding, "code" | "path">,
): string {
  const data = dataOf(root);
  const [list = "", at, ...rest] = path;
  const words = typeof at === "number" ? (TOLD_BY[list] ?? []).map((key) => own(valueAt(data, [list, at]), key)) : [];
  const told = words.filter((word) => typeof word === "string" || typeof word === "number").join(" ");
  const steps = told === "" ? path : [list, told, ...rest];
  const place = steps
    .map((step, i) => (typeof path[i] === "number" ? `[${step}]` : i === 0 ? step : `.${step}`))
    .join("");
  const name = isAlone ? [] : [String(own(data, "name") ?? index + 1)];
  return [code, ...name, place].filter((part) => part !== "").join(" ");
}
