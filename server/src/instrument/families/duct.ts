/** Whistles and recorders: a windway leads the breath to a window. */
import { told } from "../../words/translation.js";
import type { FamilyTraits } from "./traits.js";

export const DUCT = {
  name: "duct",
  body: "tube",
  title: told("duct"),
  alsoCalled: ["whistle", "recorder", "flageolet", "fipple"],
  mouth: { by: "window", of: told("A duct flute's mouth"), example: "`window: { width: 9, cutUp: 4.5 }`" },
  hasStopper: true,
  properties: [
    ...["bore", "foot", "holes", "hands", "fingerings"],
    ...["mouth.window", "mouth.window.stopper", "mouth.windway", "mouth.chamber", "mouth.block"],
  ],
} as const satisfies FamilyTraits;
