import { t } from "../../words/translation.js";
import type { Finding } from "../finding.js";
import type { Rule } from "./rule.js";

/** The model of a vessel knows round, straight holes only. */
export const vesselHoleShape: Rule = {
  code: "model/out-of-range",
  check: ({ holes, mouth, family }) => [
    ...(family === "vessel" && mouth?.kind === "embouchure" && mouth.undercut > 0 ? [undercutMouth()] : []),
    ...holes.flatMap(({ length, diameter, undercut = 0, label, path }): readonly Finding[] => {
      const oval = length !== undefined && length !== diameter;
      if (!oval && undercut === 0) return [];
      const message = oval
        ? t`In a vessel's wall ${label} is treated as round, by its \`diameter\` alone. Its notes are less sure.`
        : t`In a vessel's wall ${label} is treated as round, and not undercut. Its notes are less sure.`;
      const property = oval ? "length" : "undercut";
      return [{ code: "model/out-of-range", severity: "information", message, path: [...path, property] }];
    }),
  ],
};

function undercutMouth(): Finding {
  const message = t("In a vessel's wall the mouth hole is treated as not undercut. All its notes are less sure.");
  return { code: "model/out-of-range", severity: "information", message, path: ["mouth", "hole", "undercut"] };
}
