import { t } from "../../words/translation.js";
import { cavityOf } from "../draft/cavity.js";
import { holeData } from "../draft/read.js";
import type { Finding } from "../finding.js";
import { own } from "../path.js";
import type { Rule } from "./rule.js";

/** In a round cavity holes lie by their direction, in a tube by their distance: the other's number does nothing. */
export const vesselHolePlace: Rule = {
  code: "vessel/hole-place",
  check: (draft) => {
    const cavity = cavityOf(draft);
    if (cavity === undefined) return [];
    const name = cavity.kind === "round" ? "at" : "elevation";
    return draft.holes.flatMap(({ label, path }, i): readonly Finding[] => {
      if (own(holeData(draft.data)[i], name) === undefined) return [];
      const message =
        name === "at"
          ? t`\`at\` of ${label} does nothing in a round chamber, where \`angle\` and \`elevation\` say where a hole lies: remove it, or say \`shape: tube\` if it is one.`
          : t`\`elevation\` of ${label} does nothing in a tube, where \`at\` says where a hole lies and \`angle\` to which side: remove it.`;
      return [{ code: "vessel/hole-place", severity: "information", message, path: [...path, name], on: "key" }];
    });
  },
};
