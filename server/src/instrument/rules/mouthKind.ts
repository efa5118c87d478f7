import { t } from "../../words/translation.js";
import { traitsOf } from "../families/index.js";
import type { Finding } from "../finding.js";
import { isMap, own } from "../path.js";
import type { Rule } from "./rule.js";

/** The mouth is that of the family, and one kind only. */
export const mouthKind: Rule = {
  code: "mouth/kind",
  check: (draft) => {
    const { data } = draft;
    const traits = traitsOf(draft);
    const mouth = own(data, "mouth");
    if (!isMap(mouth)) return [];
    const kinds = ["correction", "window", "hole"].filter((key) => own(mouth, key) !== undefined);
    const finding = (message: string, path: Finding["path"], on?: "key"): readonly Finding[] => [
      { code: "mouth/kind", severity: "error", message, path, ...(on && { on }) },
    ];
    const [first, second] = kinds;
    if (second !== undefined) {
      return finding(
        t`A mouth is described in one way: \`${first}\` and \`${second}\` exclude each other. Remove one.`,
        ["mouth", second],
        "key",
      );
    }
    if (first === "window" && traits?.hasStopper !== false && own(mouth, "stopper") !== undefined) {
      const message = t(
        "`stopper` beside a window means nothing: it belongs to an embouchure hole. A plug upstream of the window is written inside, counted from the window's upstream end: `window: { width: 9, cutUp: 4.5, stopper: 4 }`.",
      );
      return finding(message, ["mouth", "stopper"], "key");
    }
    if (first === "correction" || traits === undefined || traits.mouth === "any") return [];
    if (traits.mouth === "rim") {
      if (first === undefined) return [];
      const message = t`A rim is the tube's own open end and has no \`${first}\`. Write \`mouth: { cover: 0.6 }\`, or change the family.`;
      return finding(message, ["mouth", first], "key");
    }
    const { by, of, example } = traits.mouth;
    if (first === by) return [];
    const message = t`${t(of)} is described by ${example}, or by a measured \`correction\`.`;
    return finding(message, first === undefined ? ["mouth"] : ["mouth", first], "key");
  },
};
