import { t } from "../../words/translation.js";
import { boreDiameterAt } from "../draft/bore.js";
import type { Finding } from "../finding.js";
import { atLeastText, atMostText, drawnBeside, lengthText } from "../lengthWords.js";
import { own, valueAt } from "../path.js";
import { LENGTH_SLACK, type Rule } from "./rule.js";

const MOUTHS = { window: "The window", embouchure: "The embouchure hole", notch: "The notch" } as const;

/** The mouth's opening fits the tube. */
export const mouthWiderThanBore: Rule = {
  code: "mouth/wider-than-bore",
  check: (draft) => {
    const { mouth, bore, data } = draft;
    if (mouth?.kind !== "window" && mouth?.kind !== "embouchure" && mouth?.kind !== "notch") return [];
    const diameter = boreDiameterAt(bore, 0);
    const undercut = mouth.kind === "embouchure" ? mouth.undercut : 0;
    if (diameter === undefined || mouth.width + undercut <= diameter + LENGTH_SLACK) return [];
    const part = mouth.kind === "embouchure" ? "hole" : mouth.kind;
    const inside = valueAt(data, ["mouth", part]);
    const size =
      own(inside, "width") === undefined ? (own(inside, "diameter") === undefined ? "length" : "diameter") : "width";
    const [wide, has] = drawnBeside([mouth.width + undercut, diameter], draft);
    if (mouth.width <= diameter) {
      const message = t`The embouchure hole is ${wide} wide at the bore, which is only ${has} there: undercut it less.`;
      return [{ code: "mouth/wider-than-bore", severity: "error", message, path: ["mouth", part, "undercut"] }];
    }
    const message = t`${t(MOUTHS[mouth.kind])} is ${wide} wide and the bore under it only ${has}: make it ${atMostText(diameter, draft)} or less.`;
    return [{ code: "mouth/wider-than-bore", severity: "error", message, path: ["mouth", part, size] }];
  },
};

/** An embouchure hole has a length, or a diameter that stands for both. */
export const mouthHoleSize: Rule = {
  code: "mouth/hole-size",
  check: ({ data }) => {
    const path = ["mouth", "hole"];
    const hole = valueAt(data, path);
    const finding = (message: string, place: Finding["path"]): readonly Finding[] => [
      { code: "mouth/hole-size", severity: "error", message, path: place, on: "key" },
    ];
    if (typeof hole !== "object" || hole === null) return [];
    const round = own(hole, "diameter") !== undefined;
    if (!round && own(hole, "length") === undefined) {
      return finding(
        t("The embouchure hole needs its `length` along the axis and `width` across, or a `diameter`."),
        path,
      );
    }
    if (!round || (own(hole, "length") === undefined && own(hole, "width") === undefined)) return [];
    return finding(t("Give the embouchure hole either a `diameter` or `length` and `width`, not both."), [
      ...path,
      "diameter",
    ]);
  },
};

/** The plug behind a window closes a piece of bore shorter than the one that is to sound. */
export const stopperTooFar: Rule = {
  code: "mouth/stopper-too-far",
  check: (draft) => {
    const { mouth, bore } = draft;
    const foot = bore?.at(-1)?.at;
    if (mouth?.kind !== "window" || foot === undefined || mouth.stopper < foot - LENGTH_SLACK) return [];
    const [up, down] = [lengthText(mouth.stopper, draft), lengthText(foot, draft)];
    const message = t`The plug lies ${up} upstream of the window, as far as the foot lies downstream (${down}): the closed space behind the window would be the larger instrument. Put the plug nearer; a few millimetres are usual, 0 is a whistle's block.`;
    return [{ code: "mouth/stopper-too-far", severity: "error", message, path: ["mouth", "window", "stopper"] }];
  },
};

/** The stopper's face lies outside the embouchure hole. */
export const stopperUnderHole: Rule = {
  code: "mouth/stopper-under-hole",
  check: (draft) => {
    const { mouth } = draft;
    if (mouth?.kind !== "embouchure" || mouth.stopper >= mouth.length / 2 - LENGTH_SLACK) return [];
    const [is] = drawnBeside([mouth.stopper, mouth.length / 2], draft);
    const message = t`The stopper lies ${is} from the embouchure hole's centre, under the hole: move it to ${atLeastText(mouth.length / 2, draft)} or more; about the bore's diameter is usual.`;
    return [{ code: "mouth/stopper-under-hole", severity: "error", message, path: ["mouth", "stopper"] }];
  },
};
