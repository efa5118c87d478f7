import { t } from "../../words/translation.js";
import type { Finding } from "../finding.js";
import { isMap, own } from "../path.js";
import type { Rule } from "./rule.js";

/** Parts a tube cannot be predicted without, with an example of each. */
const NEEDED = {
  family: "`family: duct`",
  mouth: "`mouth`",
  bore: "`bore`",
  wall: "`wall: 3.2`",
} as const;

/** One finding for all parts still missing: a design just begun is not a list of faults. */
export const incomplete: Rule = {
  code: "design/incomplete",
  check: ({ data }) => {
    const mouth = own(data, "mouth");
    // What is written under `mouth` may tell the family, and the textbook's open end belongs to none.
    const told =
      mouth === "ideal" ||
      (isMap(mouth) && ["window", "hole", "correction"].some((key) => own(mouth, key) !== undefined));
    const missing = (Object.keys(NEEDED) as (keyof typeof NEEDED)[]).filter(
      (key) => own(data, key) === undefined && !(key === "family" && told),
    );
    return stillNeeds(
      missing,
      missing.map((key) => NEEDED[key]),
    );
  },
};

/** @param missing names of properties @param shown the same with an example where one helps */
export function stillNeeds(missing: readonly string[], shown: readonly string[]): readonly Finding[] {
  if (missing.length === 0) return [];
  const list = shown.length === 1 ? shown[0] : t`${shown.slice(0, -1).join(", ")} and ${shown.at(-1)}`;
  const message = t`Before this design can be predicted it still needs ${list}.`;
  return [
    { code: "design/incomplete", severity: "error", message, path: ["borewright"], on: "key", data: { missing } },
  ];
}
