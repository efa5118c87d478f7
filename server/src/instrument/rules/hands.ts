/** hands/…: holes that the player's fingers do not reach or do not close. Lengths are the finished object's. */
import { DEFAULTS } from "../defaults.js";
import { hollowOf } from "../draftVessel.js";
import type { Finding, RuleCode } from "../finding.js";
import { fingerPairs, thumbPairs } from "../fingers.js";
import {
  holesAlong,
  limitAt,
  MADE_SLACK,
  type MadeHole,
  type Making,
  type MakingLimit,
  type MakingRule,
  madeText,
} from "../making.js";
import { vesselFingerPairs } from "./vesselFingers.js";

const REACH: RuleCode = "hands/out-of-reach";
const THUMB: RuleCode = "hands/thumb-out-of-reach";
const TIP: RuleCode = "hands/hole-too-wide";

function reachOf(making: Making): MakingLimit | undefined {
  return limitAt(making, ["hands", "reach"], DEFAULTS.reachMillimetres);
}

/** Neighbouring fingers of one hand reach their holes. */
export const outOfReach: MakingRule = {
  code: REACH,
  check: (making) => {
    const reach = reachOf(making);
    if (reach === undefined) return [];
    const pairs =
      making.draft.family === "vessel" && hollowOf(making.draft)?.kind !== "tube"
        ? vesselFingerPairs(making)
        : fingerPairs(fingered(making)).map(([upper, lower]) => ({
            upper,
            lower,
            apart: lower.at - upper.at,
            moved: "at",
          }));
    return pairs.flatMap(({ upper, lower, apart, moved }): readonly Finding[] => {
      if (apart <= reach.mm + MADE_SLACK) return [];
      const message =
        `${upper.name} and ${lower.name} are ${madeText(apart, making)} apart; ${handHas(reach, making)}. ` +
        `Bring them ${madeText(apart - reach.mm, making)} nearer each other and put the notes right by the holes' widths (bringing every hole in tune does that), or allow a longer stretch: \`hands.reach\`.`;
      const related = [{ path: [...upper.path, moved], message: upper.name }];
      return [{ code: REACH, severity: gravity(reach), message, path: [...lower.path, moved], related }];
    });
  },
};

/** The thumb lies near the fingers of its hand. */
export const thumbOutOfReach: MakingRule = {
  code: THUMB,
  check: (making) => {
    const reach = reachOf(making);
    const limit = reach && limitAt(making, ["hands", "thumb"], reach.mm);
    if (reach === undefined || limit === undefined) return [];
    const stated = { ...limit, stated: limit.stated || reach.stated };
    return thumbPairs(fingered(making)).flatMap(([thumb, finger]): readonly Finding[] => {
      const apart = Math.abs(thumb.at - finger.at);
      if (apart <= limit.mm + MADE_SLACK) return [];
      const message =
        `${thumb.name} lies ${madeText(apart, making)} ${thumb.at < finger.at ? "above" : "below"} ${finger.name}, the nearest finger of its hand; ` +
        `${limit.stated ? `the thumb reaches ${madeText(limit.mm, making)}` : handHas(stated, making)}. ` +
        `Bring it nearer and ${thumb.at < finger.at ? "widen" : "narrow"} it to keep its note, or allow more: \`hands.thumb\`.`;
      const related = [{ path: [...finger.path, "at"], message: finger.name }];
      return [{ code: THUMB, severity: gravity(stated), message, path: [...thumb.path, "at"], related }];
    });
  },
};

/** A fingertip closes its hole. */
export const holeTooWide: MakingRule = {
  code: TIP,
  check: (making) => {
    const { draft, finishedUnit, undersize, isFingered } = making;
    const tip = limitAt(making, ["hands", "fingertip"], DEFAULTS.fingertipMillimetres);
    if (tip === undefined) return [];
    return draft.holes.flatMap(({ label, path, diameter = 0, length = 0 }, i): readonly Finding[] => {
      // The pad of a finger is about as long as wide: the longer side of an oval counts.
      const made = Math.max(diameter, length) * finishedUnit - undersize;
      if (made <= tip.mm + MADE_SLACK || !isFingered(i)) return [];
      const drawn = roundedDown((tip.mm + undersize) / finishedUnit, draft.unit);
      const way = draft.family === "vessel" ? "shorten its chimney" : "move it toward the mouth";
      const message =
        `${label} is ${madeText(made, making)} ${length > diameter ? "long" : "wide"}; a fingertip closes ${madeText(tip.mm, making)}${usual(tip, "hands.fingertip")}. ` +
        `Draw it ${drawn} ${draft.unit} ${length > diameter ? "long" : "wide"} and ${way} to keep its note, or state what your fingers close: \`hands.fingertip\`.`;
      return [
        { code: TIP, severity: gravity(tip), message, path: [...path, length > diameter ? "length" : "diameter"] },
      ];
    });
  },
};

function fingered(making: Making): readonly MadeHole[] {
  return holesAlong(making).filter(({ index }) => making.isFingered(index));
}

/** What the design states binds; the usual hand is only a hint. */
function gravity({ stated }: MakingLimit): Finding["severity"] {
  return stated ? "warning" : "information";
}

function handHas(limit: MakingLimit, making: Making): string {
  return `${limit.stated ? "the hand has" : "hands reach"} ${madeText(limit.mm, making)}${usual(limit, "hands.reach")}`;
}

function usual({ stated }: MakingLimit, name: string): string {
  return stated ? "" : ` as a rule (the design states no \`${name}\`)`;
}

/** Rounded down to what is drawn, so that the advice holds. */
function roundedDown(size: number, unit: "mm" | "in"): number {
  const steps = unit === "mm" ? 10 : 1000;
  return Math.floor(size * steps + 1e-9) / steps;
}
