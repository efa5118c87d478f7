/** End-blown flutes: the lips blow over the tube's own end, plain or notched. */

import { told } from "../../words/translation.js";
import { DEFAULTS } from "../defaults.js";
import type { FamilyTraits } from "./traits.js";

export const RIM = {
  name: "rim",
  body: "tube",
  title: told("end-blown"),
  alsoCalled: ["quena", "kaval", "ney", "shakuhachi", "notch", "notched"],
  mouth: "rim",
  rimCover: DEFAULTS.rimCover,
  hasStopper: true,
  properties: ["bore", "foot", "holes", "hands", "fingerings", "mouth.notch", "mouth.cover"],
} as const satisfies FamilyTraits;
