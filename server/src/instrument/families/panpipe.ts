/** Pan pipes: a stopped tube for each note, blown over its rim. */
import { DEFAULTS } from "../defaults.js";
import type { FamilyTraits } from "./traits.js";

export const PANPIPE: FamilyTraits = {
  name: "panpipe",
  body: "pipes",
  title: "pan pipe",
  alsoCalled: ["panpipes", "panflute", "pan", "syrinx"],
  mouth: "rim",
  rimCover: DEFAULTS.pipeCover,
  mouthIsAssumed: true,
  hasStopper: true,
  properties: ["pipes", "mouth.cover", "rules.pipe/no-note", "rules.pipe/fingerings"],
};
