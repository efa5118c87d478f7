/** hands/…: holes that the player's fingers do not reach, have no room for or do not close. Lengths are the finished object's. */

import { t } from "../../words/translation.js";
import { bodyKindOf } from "../families/index.js";
import type { Finding, RuleCode } from "../finding.js";
import { fingerSpans } from "../hands/fingerSpans.js";
import { thumbPairs } from "../hands/fingers.js";
import { atMostText, DRAWN, REDRAWN } from "../lengthWords.js";
import { fingertipOf, type MakerLimit, thumbReachOf } from "../making/makerLimits.js";
import {
  changeText,
  holesAlong,
  MADE_SLACK,
  type MadeHole,
  type Making,
  type MakingRule,
  made,
  madeBeside,
} from "../making/making.js";

const REACH: RuleCode = "hands/out-of-reach";
const SPACING: RuleCode = "hands/fingers-too-near";
const THUMB: RuleCode = "hands/thumb-out-of-reach";
const TIP: RuleCode = "hands/hole-too-wide";

/** Neighbouring fingers of one hand reach their holes. */
export const outOfReach: MakingRule = {
  code: REACH,
  check: (making) =>
    fingerSpans(making).flatMap(({ upper, lower, reach, isFar, stretch, moved }): readonly Finding[] => {
      if (reach === undefined || !isFar) return [];
      const [is, has] = madeBeside([made(stretch, making), made(reach.mm, making, DRAWN)], making);
      const otherwise =
        moved === "angle"
          ? t("or allow a longer stretch: `hands.reach`.")
          : t(
              "leave a finger out between them, cover one with a key or fold the tube, or turn the lower hole toward the hand and state the longer stretch: `hands.reach`.",
            );
      const message = t`${upper.name} and ${lower.name} are ${is} apart; ${handHas(reach, has)}. Bring them ${changeText(stretch - reach.mm, making)} closer together and correct the notes by the holes' widths (bringing every hole into tune does that), ${otherwise}`;
      const related = [{ path: [...upper.path, moved], message: upper.name }];
      return [{ code: REACH, severity: severityOf(reach), message, path: [...lower.path, moved], related }];
    }),
};

/** Two fingers have room beside each other. */
export const fingersTooNear: MakingRule = {
  code: SPACING,
  check: (making) =>
    fingerSpans(making).flatMap(({ upper, lower, which, least, isNear, apart, moved }): readonly Finding[] => {
      if (least === undefined || !isNear) return [];
      const [is, needs] = madeBeside([made(apart, making), made(least.mm, making, DRAWN)], making);
      const whose = which === "hands" ? t("fingers of two hands") : t("two fingers");
      const message = t`${upper.name} and ${lower.name} are ${is} apart; ${whose} side by side need ${needs}${usual(least, "hands.spacing")}. Move them ${changeText(least.mm - apart, making)} farther apart and correct the notes by the holes' widths (bringing every hole into tune does that), or state how near your fingers come: \`hands.spacing\`.`;
      const related = [{ path: [...upper.path, moved], message: upper.name }];
      return [{ code: SPACING, severity: severityOf(least), message, path: [...lower.path, moved], related }];
    }),
};

/** The thumb lies near the fingers of its hand. */
export const thumbOutOfReach: MakingRule = {
  code: THUMB,
  check: (making) => {
    const limit = thumbReachOf(making.draft);
    if (limit === undefined) return [];
    return thumbPairs(fingered(making)).flatMap(([thumb, finger]): readonly Finding[] => {
      const apart = Math.abs(thumb.at - finger.at);
      const [[own], [near]] = [thumb.holes, finger.holes];
      if (apart <= limit.mm + MADE_SLACK) return [];
      const [is, has] = madeBeside([made(apart, making), made(limit.mm, making, DRAWN)], making);
      const reaches =
        limit.own || !limit.stated ? t`the thumb reaches ${has}${usual(limit, "hands.thumb")}` : handHas(limit, has);
      const message =
        thumb.at < finger.at
          ? t`${thumb.name} lies ${is} above ${finger.name}, the nearest finger of its hand; ${reaches}. Bring it nearer and widen it to keep its note, or allow more: \`hands.thumb\`.`
          : t`${thumb.name} lies ${is} below ${finger.name}, the nearest finger of its hand; ${reaches}. Bring it nearer and narrow it to keep its note, or allow more: \`hands.thumb\`.`;
      const related = [{ path: [...near.path, "at"], message: near.name }];
      return [{ code: THUMB, severity: severityOf(limit), message, path: [...own.path, "at"], related }];
    });
  },
};

/** A fingertip closes its hole. */
export const holeTooWide: MakingRule = {
  code: TIP,
  check: (making) => {
    const { draft, finishedUnit, undersize, isFingered } = making;
    const tip = fingertipOf(draft);
    if (tip === undefined) return [];
    return draft.holes.flatMap(({ label, path, diameter = 0, length = 0 }, i): readonly Finding[] => {
      // The pad of a finger is about as long as wide: the longer side of an oval counts.
      const finished = Math.max(diameter, length) * finishedUnit - undersize;
      if (finished <= tip.mm + MADE_SLACK || !isFingered(i)) return [];
      const drawn = atMostText((tip.mm + undersize) / finishedUnit, draft, REDRAWN);
      const [is, closes] = madeBeside([made(finished, making), made(tip.mm, making, DRAWN)], making);
      const way = bodyKindOf(draft) === "vessel" ? t("shorten its chimney") : t("move it toward the mouth");
      const asRule = usual(tip, "hands.fingertip");
      const message =
        length > diameter
          ? t`${label} is ${is} long; a fingertip closes ${closes}${asRule}. Draw it ${drawn} long and ${way} to keep its note, or state what your fingers close: \`hands.fingertip\`.`
          : t`${label} is ${is} wide; a fingertip closes ${closes}${asRule}. Draw it ${drawn} wide and ${way} to keep its note, or state what your fingers close: \`hands.fingertip\`.`;
      return [
        { code: TIP, severity: severityOf(tip), message, path: [...path, length > diameter ? "length" : "diameter"] },
      ];
    });
  },
};

function fingered(making: Making): readonly MadeHole[] {
  return holesAlong(making).filter(({ index }) => making.isFingered(index));
}

/** What the design states binds; the usual hand is only a hint. */
function severityOf({ stated }: MakerLimit): Finding["severity"] {
  return stated ? "warning" : "information";
}

function handHas(limit: MakerLimit, reach: string): string {
  return limit.stated ? t`the stated reach is ${reach}` : t`hands reach ${reach}${usual(limit, "hands.reach")}`;
}

function usual({ stated }: MakerLimit, name: string): string {
  return stated ? "" : t` as a rule (the design states no \`${name}\`)`;
}
