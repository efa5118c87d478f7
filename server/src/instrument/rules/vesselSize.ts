/** How large the cavity of a vessel is, and as what shape it is treated. */

import { t } from "../../words/translation.js";
import { cavityOf, shapeOf } from "../draft/cavity.js";
import type { Finding } from "../finding.js";
import { lengthText } from "../lengthWords.js";
import { isMap, own } from "../path.js";
import type { Rule } from "./rule.js";

/** What each shape is measured by; one of a group suffices. */
const DIMENSIONS = {
  sphere: [["diameter"]],
  tube: [["length"], ["diameter"]],
  ellipsoid: [["length"], ["width", "height", "diameter"]],
  box: [["length"], ["width", "height", "diameter"]],
} as const;

const NAMES = { sphere: "A sphere", tube: "A tube", ellipsoid: "An ellipsoid", box: "A box" } as const;

const EXAMPLES = {
  sphere: "`diameter: 58`",
  tube: "`length: 90` and `diameter: 40`",
  ellipsoid: "`length: 90`, `width: 60` and `height: 45`",
  box: "`length: 90`, `width: 60` and `height: 45`",
} as const;

/** The size is known: by the volume, or by a shape and its dimensions. */
export const vesselSize: Rule = {
  code: "vessel/size",
  check: ({ data }) => {
    const vessel = own(data, "vessel");
    const finding = (message: string, path: Finding["path"]): readonly Finding[] => [
      { code: "vessel/size", severity: "error", message, path, on: "key" },
    ];
    if (!isMap(vessel)) return [];
    const shape = shapeOf(data);
    const missing =
      shape && DIMENSIONS[shape].filter((group) => group.every((name) => own(vessel, name) === undefined));
    const some = Object.keys(vessel).some((name) => ["length", "width", "height", "diameter"].includes(name));
    if (own(vessel, "volume") !== undefined && !(shape !== undefined && some && missing?.length)) return [];
    if (shape === undefined) {
      return finding(
        t(
          "How large is the chamber? Give its `volume` in cm³ (weigh the water it holds), or a `shape` with its inner dimensions.",
        ),
        ["vessel"],
      );
    }
    if (missing === undefined || missing.length === 0) return [];
    return finding(
      t`${t(NAMES[shape])} is measured by its inner ${t(EXAMPLES[shape])}; or give the \`volume\` alone.`,
      ["vessel", "shape"],
    );
  },
};

/** Reported where the prediction assumes another shape than the body has. */
export const vesselShapeAssumed: Rule = {
  code: "vessel/shape-assumed",
  check: (draft) => {
    const cavity = cavityOf(draft);
    if (cavity?.kind !== "round" || cavity.standIn === undefined) return [];
    const finding = (message: string, name: string): readonly Finding[] => [
      { code: "vessel/shape-assumed", severity: "information", message, path: ["vessel", name] },
    ];
    if (cavity.standIn === "box") {
      return finding(
        t("A box is treated as the ellipsoid of its volume and proportions: allow 10 cents more of uncertainty."),
        "shape",
      );
    }
    const size = lengthText(2 * cavity.semiAxes[0], draft);
    return finding(
      t`Only the chamber's volume is given: it is treated as a sphere of ${size} inner diameter. A long body sounds flatter, by 10 to 150 cents: give its \`shape\` and \`length\` too.`,
      "volume",
    );
  },
};
