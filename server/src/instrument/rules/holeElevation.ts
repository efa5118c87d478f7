import { t } from "../../words/translation.js";
import { holeData } from "../draft/read.js";
import type { Finding } from "../finding.js";
import { own } from "../path.js";
import type { Rule } from "./rule.js";

/** A tube's hole lies by `at` and `angle`; its `elevation` would do nothing. */
export const holeElevation: Rule = {
  code: "hole/elevation",
  check: ({ data, holes }) =>
    holes.flatMap(({ path, label }, i): readonly Finding[] => {
      if (own(holeData(data)[i], "elevation") === undefined) return [];
      const message = t`\`elevation\` of ${label} does nothing in a tube, where \`at\` says where a hole lies and \`angle\` to which side: remove it.`;
      const correction = { do: "remove" } as const;
      return [
        {
          code: "hole/elevation",
          severity: "information",
          message,
          path: [...path, "elevation"],
          on: "key",
          correction,
        },
      ];
    }),
};
