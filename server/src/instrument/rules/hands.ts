/** hands/…: holes that the player's fingers do not reach or do not close. Lengths are the finished object's. */
import { cavityOf } from "../draftVessel.js";
import type { Finding, RuleCode } from "../finding.js";
import { fingerPairs, thumbPairs } from "../fingers.js";
import { atMostText, DRAWN, REDRAWN } from "../lengthWords.js";
import { fingertipOf, type MakerLimit, reachOf, thumbReachOf } from "../makerLimits.js";
import {
  changeText,
  holesAlong,
  MADE_SLACK,
  type MadeHole,
  type Making,
  type MakingRule,
  made,
  madeBeside,
} from "../making.js";
import { vesselFingerPairs } from "./vesselFingers.js";

const REACH: RuleCode = "hands/out-of-reach";
const THUMB: RuleCode = "hands/thumb-out-of-reach";
const TIP: RuleCode = "hands/hole-too-wide";

/** Neighbouring fingers of one hand reach their holes. */
export const outOfReach: MakingRule = {
  code: REACH,
  check: (making) => {
    const reach = reachOf(making.draft);
    if (reach === undefined) return [];
    const pairs =
      making.draft.family === "vessel" && cavityOf(making.draft)?.kind !== "tube"
        ? vesselFingerPairs(making)
        : fingerPairs(fingered(making)).map(([upper, lower]) => ({
            upper,
            lower,
            apart: lower.at - upper.at,
            moved: "at",
          }));
    return pairs.flatMap(({ upper, lower, apart, moved }): readonly Finding[] => {
      if (apart <= reach.mm + MADE_SLACK) return [];
      const [is, has] = madeBeside([made(apart, making), made(reach.mm, making, DRAWN)], making);
      const message =
        `${upper.name} and ${lower.name} are ${is} apart; ${handHas(reach, has)}. ` +
        `Bring them ${changeText(apart - reach.mm, making)} nearer each other and put the notes right by the holes' widths (bringing every hole in tune does that), or allow a longer stretch: \`hands.reach\`.`;
      const related = [{ path: [...upper.path, moved], message: upper.name }];
      return [{ code: REACH, severity: severityOf(reach), message, path: [...lower.path, moved], related }];
    });
  },
};

/** The thumb lies near the fingers of its hand. */
export const thumbOutOfReach: MakingRule = {
  code: THUMB,
  check: (making) => {
    const limit = thumbReachOf(making.draft);
    if (limit === undefined) return [];
    return thumbPairs(fingered(making)).flatMap(([thumb, finger]): readonly Finding[] => {
      const apart = Math.abs(thumb.at - finger.at);
      if (apart <= limit.mm + MADE_SLACK) return [];
      const [is, has] = madeBeside([made(apart, making), made(limit.mm, making, DRAWN)], making);
      const message =
        `${thumb.name} lies ${is} ${thumb.at < finger.at ? "above" : "below"} ${finger.name}, the nearest finger of its hand; ` +
        `${limit.own ? `the thumb reaches ${has}` : handHas(limit, has)}. ` +
        `Bring it nearer and ${thumb.at < finger.at ? "widen" : "narrow"} it to keep its note, or allow more: \`hands.thumb\`.`;
      const related = [{ path: [...finger.path, "at"], message: finger.name }];
      return [{ code: THUMB, severity: severityOf(limit), message, path: [...thumb.path, "at"], related }];
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
      const way = draft.family === "vessel" ? "shorten its chimney" : "move it toward the mouth";
      const message =
        `${label} is ${is} ${length > diameter ? "long" : "wide"}; a fingertip closes ${closes}${usual(tip, "hands.fingertip")}. ` +
        `Draw it ${drawn} ${length > diameter ? "long" : "wide"} and ${way} to keep its note, or state what your fingers close: \`hands.fingertip\`.`;
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
  return `${limit.stated ? "the stated reach is" : "hands reach"} ${reach}${usual(limit, "hands.reach")}`;
}

function usual({ stated }: MakerLimit, name: string): string {
  return stated ? "" : ` as a rule (the design states no \`${name}\`)`;
}
