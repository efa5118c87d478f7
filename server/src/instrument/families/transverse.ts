/** Side-blown flutes: the lips blow across a hole in the tube's side. */
import { told } from "../../words/translation.js";
import type { FamilyTraits } from "./traits.js";

export const TRANSVERSE = {
  name: "transverse",
  body: "tube",
  title: told("side-blown"),
  alsoCalled: ["fife", "crossflute"],
  mouth: { by: "hole", of: told("A transverse flute's mouth"), example: "`hole: { length: 12, width: 10 }`" },
  hasStopper: true,
  properties: ["bore", "foot", "holes", "hands", "fingerings", "mouth.hole", "mouth.stopper", "mouth.cover"],
} as const satisfies FamilyTraits;
