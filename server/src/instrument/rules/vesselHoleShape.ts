import type { Finding } from "../finding.js";
import type { Rule } from "./rule.js";

/** The model of a vessel knows round, straight holes only. */
export const vesselHoleShape: Rule = {
  code: "model/out-of-range",
  check: ({ holes }) =>
    holes.flatMap(({ length, diameter, undercut = 0, label, path }): readonly Finding[] => {
      const oval = length !== undefined && length !== diameter;
      if (!oval && undercut === 0) return [];
      const message = `In a vessel's wall ${label} is reckoned as round, ${oval ? "by its `diameter` alone" : "and not undercut"}. Its notes are less sure.`;
      const property = oval ? "length" : "undercut";
      return [{ code: "model/out-of-range", severity: "information", message, path: [...path, property] }];
    }),
};
