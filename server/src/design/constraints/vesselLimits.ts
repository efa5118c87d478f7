/** What the width of a vessel's hole must keep to: fingertip, limits, and what the prediction was checked for. */
import { KEPT_BY_REFITS } from "../../acoustics/checkedRanges.js";
import { roundShape, sharedColumn } from "../../instrument/body.js";
import type { Instrument } from "../../instrument/model.js";
import { t } from "../../words/translation.js";
import type { Constraints } from "./constraints.js";
import { sizeText } from "./limit.js";

export interface HoleWidthLimit {
  /** The least diameter that is allowed, or the greatest. */
  readonly kind: "least" | "most";
  /** mm of diameter, printed. */
  readonly limit: number;
  /** Whether it grows with the cavity. */
  readonly ofCavity: boolean;
  readonly message: string;
  readonly advice: string;
}

/**
 * Of the narrowest half-axis, the radius of a hole: the prediction was checked up to a quarter, and rounding still follows; where that is
 * too little, beyond, with the note's wider band. From 0.4 on the curvature of the wall across the hole is not small, as the formulas assume.
 */
export type Ground = "checked" | "beyond";
const WIDEST_SHARE: Record<Ground, number> = { checked: KEPT_BY_REFITS.openingOverHalfAxis, beyond: 0.4 };
/** Narrower holes neither print nor speak, diameter in mm. Common practice, no source. */
const NARROWEST = 2;

/** Of hole `hole`, by its index. @param name what it is called in messages */
export function vesselHoleLimits(
  instrument: Instrument,
  constraints: Constraints,
  hole: number,
  name: string,
  ground: Ground = "checked",
): readonly HoleWidthLimit[] {
  const { body, holes } = instrument;
  const [shape, column] = [roundShape(body), sharedColumn(body)];
  const stated = constraints.limits(holes[hole]?.path ?? []).diameter;
  const present = 2e3 * ((shape?.holes ?? column?.holes)?.[hole]?.radius ?? 0);
  const tip = Math.max(constraints.fingertip, constraints.fingertipStated ? 0 : present);
  const least = stated?.[0] ?? Math.min(NARROWEST, present);
  const most = Math.min(tip, stated?.[1] ?? Number.POSITIVE_INFINITY);
  const share = shape === undefined ? KEPT_BY_REFITS.holeOverBore[1] : WIDEST_SHARE[ground];
  const across = 2e3 * (shape === undefined ? (column?.bore[0]?.radius ?? 0) : Math.min(...shape.semiAxes));
  // A wider one may keep its width relative to the cavity.
  const widest = Math.max(share * across, present);
  const [narrowest, tipped, chambered] = [least, most, widest].map((limit) => sizeText(limit, { instrument }));
  return [
    {
      kind: "least",
      limit: least,
      ofCavity: false,
      message: t`${name} would have to be narrower than ${narrowest}`,
      advice: t("accept a narrower hole (limits.diameter)"),
    },
    {
      kind: "most",
      limit: most,
      ofCavity: false,
      message: t`${name} would have to be wider than ${tipped}, the most that a fingertip covers or its limits allow`,
      advice: t("allow a wider hole (hands.fingertip, limits.diameter)"),
    },
    {
      kind: "most",
      limit: widest,
      ofCavity: true,
      message:
        ground === "checked"
          ? t`${name} would have to be wider than ${chambered} in this chamber, beyond what the prediction was checked for`
          : t`${name} would have to be wider than ${chambered} in this chamber, beyond which no prediction holds`,
      advice: t("give the chamber a thinner wall or a shorter hole (chimney)"),
    },
  ];
}
