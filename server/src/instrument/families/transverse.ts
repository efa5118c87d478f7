/** Side-blown flutes: the lips blow across a hole in the tube's side. */
import type { FamilyTraits } from "./traits.js";

export const TRANSVERSE: FamilyTraits = {
  name: "transverse",
  body: "tube",
  title: "side-blown",
  alsoCalled: ["fife", "crossflute"],
  mouth: { by: "hole", of: "A transverse flute's", example: "`hole: { length: 12, width: 10 }`" },
  hasStopper: true,
  properties: ["bore", "foot", "holes", "hands", "fingerings", "mouth.hole", "mouth.stopper", "mouth.cover"],
};
