import { t } from "../../words/translation.js";
import { cavityOf } from "../draft/cavity.js";
import { holeData } from "../draft/read.js";
import type { Finding } from "../finding.js";
import { own } from "../path.js";
import type { Rule } from "./rule.js";

/** In a round cavity holes lie by their direction, in a tube by their distance: the other number does nothing. */
export const vesselHolePlace: Rule = {
  code: "vessel/hole-place",
  check: (draft) => {
    const cavity = cavityOf(draft);
    if (cavity?.kind !== "round") return [];
    return draft.holes.flatMap(({ label, path }, i): readonly Finding[] => {
      if (own(holeData(draft.data)[i], "at") === undefined) return [];
      const message = t`\`at\` of ${label} does nothing in a round chamber, where \`angle\` says where a hole lies: take it out, or say \`shape: tube\` if it is one.`;
      return [{ code: "vessel/hole-place", severity: "information", message, path: [...path, "at"], on: "key" }];
    });
  },
};
