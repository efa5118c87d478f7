/** What the player's hands ask, as the findings of the same names do: neighbouring fingers in reach, and none in the other's way; the thumb. */
import { alongWithin, type Finger, type FingerPair } from "../../instrument/hands/fingers.js";
import type { MakerLimit } from "../../instrument/making/makerLimits.js";
import { t } from "../../words/translation.js";
import { type ColumnHole, neighbouringFingers, thumbsAndFingers } from "./fingers.js";
import { atLeast, atMost, type Limit, type LimitContext, sizesBeside, type Term } from "./limit.js";

export function handLimits(context: LimitContext): readonly Limit[] {
  const { analysis, column } = context;
  const pairs = neighbouringFingers(analysis.instrument, column);
  return [...pairs.flatMap((pair) => [...reach(context, pair), ...spacing(context, pair)]), ...thumbs(context)];
}

function reach(context: LimitContext, { upper, lower, which, along, across }: FingerPair<ColumnHole>): Limit[] {
  const { analysis, constraints } = context;
  if (which === "hands") return [];
  const limit = constraints.reach(which);
  const most = alongWithin(limit.mm, across);
  return atMost(context, distance(upper, lower), limit.stated ? most : Math.max(most, along), {
    complaint: (mm) => {
      const [needed, has] = sizesBeside([mm, most], analysis);
      return t`${upper.name} to ${lower.name} would need ${needed} of reach, but the reach is ${has}${asARule(limit)}`;
    },
    advice: t("allow a longer stretch (hands.reach), leave a finger out, or cover the hole with a key"),
  });
}

function spacing(context: LimitContext, { upper, lower, which, along, across }: FingerPair<ColumnHole>): Limit[] {
  const { analysis, constraints } = context;
  const limit = constraints.spacing(which);
  const least = Math.sqrt(Math.max(0, limit.mm ** 2 - across ** 2));
  return atLeast(context, distance(upper, lower), limit.stated ? least : Math.min(least, along), {
    complaint: (mm) => {
      const [left, needed] = sizesBeside([mm, least], analysis);
      return t`${upper.name} and ${lower.name} would be only ${left} apart, but two fingers need ${needed}${asARule(limit)}`;
    },
    advice: t("let fingers lie nearer (hands.spacing)"),
  });
}

function thumbs(context: LimitContext): Limit[] {
  const { analysis, column, constraints } = context;
  const { mm: reaches, stated } = constraints.thumb;
  return thumbsAndFingers(analysis.instrument, column).flatMap(([thumb, finger]): Limit[] => {
    const present = Math.abs(thumb.at - finger.at);
    const most = stated ? reaches : Math.max(reaches, present);
    const words = {
      complaint: (mm: number) => {
        const [needed, has] = sizesBeside([mm, reaches], analysis);
        return t`the thumb at ${thumb.name} would be ${needed} from ${finger.name}, but it reaches ${has}`;
      },
      advice: t("allow more (hands.thumb)"),
    };
    return [
      ...atMost(context, distance(thumb, finger), most, words),
      ...atMost(context, distance(finger, thumb), most, words),
    ];
  });
}

/** Along the tube, from the middle of what one finger covers to that of the other. */
export function distance(upper: Finger<ColumnHole>, lower: Finger<ColumnHole>): readonly Term[] {
  const place = (finger: Finger<ColumnHole>, sign: 1 | -1) =>
    finger.holes.map(({ index }): Term => [sign / finger.holes.length, "hole-place", index]);
  return [...place(lower, 1), ...place(upper, -1)];
}

function asARule({ stated }: MakerLimit): string {
  return stated ? "" : t(" as a rule");
}
