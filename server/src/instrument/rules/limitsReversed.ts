import { t } from "../../words/translation.js";
import type { Finding, Path } from "../finding.js";
import { lengthText } from "../lengthWords.js";
import { own, valueAt } from "../path.js";
import { placeInWords } from "../placeInWords.js";
import { LENGTH_SLACK, type Rule } from "./rule.js";

/** The lower of `limits` is not above the upper. A refit refuses what no dimension can keep. */
export const limitsReversed: Rule = {
  code: "limits/reversed",
  check: (draft) => {
    const { data, numbers } = draft;
    return ["bore", "holes"].flatMap((part) => {
      const list = valueAt(data, [part]);
      if (!Array.isArray(list)) return [];
      return list.flatMap((item, i) =>
        ["at", "diameter"].flatMap((name): readonly Finding[] => {
          const path: Path = [part, i, "limits", name];
          if (own(own(item, "limits"), name) === undefined) return [];
          const [least, greatest] = [numbers.at([...path, 0]), numbers.at([...path, 1])];
          if (least === undefined || greatest === undefined || least <= greatest + LENGTH_SLACK) return [];
          const message = t`${placeInWords(path, data)} runs from ${lengthText(least, draft)} to ${lengthText(greatest, draft)}, so nothing lies between: give the lower value first, then the upper.`;
          return [{ code: "limits/reversed", severity: "warning", message, path }];
        }),
      );
    });
  },
};
