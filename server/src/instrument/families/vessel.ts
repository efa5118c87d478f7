/** Vessel flutes: a closed chamber with a window or a mouth hole. */
import { told } from "../../words/translation.js";
import type { FamilyTraits } from "./traits.js";

export const VESSEL = {
  name: "vessel",
  body: "vessel",
  title: told("vessel"),
  alsoCalled: ["ocarina", "xun", "gemshorn"],
  mouth: "any",
  hasStopper: false,
  properties: [
    ...["vessel", "holes", "hands", "fingerings", "mouth.window", "mouth.windway", "mouth.hole", "mouth.cover"],
    ...["rules.vessel/shape-assumed", "rules.vessel/hole-place"],
  ],
} as const satisfies FamilyTraits;
