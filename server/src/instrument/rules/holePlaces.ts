import { t } from "../../words/translation.js";
import { boreDiameterAt } from "../draft/bore.js";
import { mouthHalfLength } from "../draft/mouth.js";
import type { Finding } from "../finding.js";
import { atLeastText, atMostText, drawnBeside, lengthText } from "../lengthWords.js";
import { LENGTH_SLACK, type Rule } from "./rule.js";

/** In a tube, every hole has a place. */
export const holeNeedsPlace: Rule = {
  code: "schema/missing-property",
  check: ({ holes, data }) =>
    holes.flatMap(({ path, at }, i): readonly Finding[] => {
      const hole = (data as { holes: readonly unknown[] }).holes[i];
      if (at !== undefined || typeof hole !== "object" || hole === null || Object.hasOwn(hole, "at")) return [];
      const message = t("A hole needs `at`: distance of its centre from the mouth opening's centre, along the axis.");
      return [{ code: "schema/missing-property", severity: "error", message, path: [...path, "at"] }];
    }),
};

/** Holes are listed from the mouth to the foot. */
export const holeOrder: Rule = {
  code: "hole/order",
  check: (draft) => {
    const findings: Finding[] = [];
    let before: (typeof draft.holes)[number] | undefined;
    for (const hole of draft.holes) {
      if (hole.at === undefined) continue;
      if (before?.at !== undefined && hole.at < before.at - LENGTH_SLACK) {
        const message = t`${hole.label} lies ${lengthText(before.at - hole.at, draft)} nearer the mouth than ${before.label}, which is listed before it. List holes from the mouth to the foot, and the signs of the fingerings with them.`;
        const related = [{ path: [...before.path, "at"], message: before.label }];
        findings.push({ code: "hole/order", severity: "error", message, path: [...hole.path, "at"], related });
      } else before = hole;
    }
    return findings;
  },
};

/** A hole lies wholly between the mouth opening and the foot. */
export const holeOutsideBore: Rule = {
  code: "hole/outside-bore",
  check: (draft) => {
    const foot = draft.bore?.at(-1)?.at;
    const mouthEnd = mouthHalfLength(draft.mouth);
    return draft.holes.flatMap(({ at, length, label, path }): readonly Finding[] => {
      if (at === undefined || length === undefined) return [];
      const finding = (message: string): readonly Finding[] => [
        { code: "hole/outside-bore", severity: "error", message, path: [...path, "at"] },
      ];
      if (at - length / 2 < mouthEnd - LENGTH_SLACK) {
        const least = mouthEnd + length / 2;
        const [is] = drawnBeside([at, least], draft);
        return finding(
          t`${label} at ${is} runs into the mouth. Move it to ${atLeastText(least, draft)} or further down.`,
        );
      }
      if (foot === undefined || at + length / 2 <= foot + LENGTH_SLACK) return [];
      const most = foot - length / 2;
      const [is] = drawnBeside([at, most], draft);
      return finding(
        t`${label} at ${is} runs over the foot at ${lengthText(foot, draft)}. Move it to ${atMostText(most, draft)} or less, or lengthen the bore.`,
      );
    });
  },
};

/** A hole is narrower than the bore it opens into, its undercut with it. */
export const holeWiderThanBore: Rule = {
  code: "hole/wider-than-bore",
  check: (draft) =>
    draft.holes.flatMap(({ at, diameter, undercut = 0, label, path }): readonly Finding[] => {
      const bore = at === undefined ? undefined : boreDiameterAt(draft.bore, at);
      if (diameter === undefined || bore === undefined || diameter + undercut <= bore + LENGTH_SLACK) return [];
      const [wide, has] = drawnBeside([diameter + undercut, bore], draft);
      const advice = undercut > 0 ? t("Undercut it less") : t`Make the hole ${atMostText(bore, draft)} or less`;
      const message =
        undercut > 0
          ? t`${label} is ${wide} wide at the bore, and the bore there is only ${has}. ${advice}.`
          : t`${label} is ${wide} wide, and the bore there is only ${has}. ${advice}.`;
      const property = diameter <= bore ? "undercut" : "diameter";
      return [{ code: "hole/wider-than-bore", severity: "error", message, path: [...path, property] }];
    }),
};

/** Some of a raised hole's chimney lies in the body. */
export const holeRaisedTooFar: Rule = {
  code: "value/out-of-range",
  check: (draft) =>
    draft.holes.flatMap(({ raised, chimney, label, path }): readonly Finding[] => {
      if (raised === undefined || chimney === undefined || raised === 0 || raised < chimney) return [];
      const [up, whole] = drawnBeside([raised, chimney], draft);
      const message = t`${label} stands up ${up} above the body, and its whole \`chimney\` is only ${whole}. The chimney counts from the bore: make it longer, or leave it out.`;
      return [{ code: "value/out-of-range", severity: "error", message, path: [...path, "raised"] }];
    }),
};
