/** Pan pipes: a stopped tube for each note, blown over its rim. */

import { told } from "../../words/translation.js";
import { DEFAULTS } from "../defaults.js";
import type { FamilyTraits } from "./traits.js";

export const PANPIPE = {
  name: "panpipe",
  body: "pipes",
  title: told("pan pipe"),
  alsoCalled: ["panpipes", "panflute", "pan", "syrinx"],
  mouth: "rim",
  rimCover: DEFAULTS.pipeCover,
  mouthIsAssumed: true,
  hasStopper: true,
  properties: ["pipes", "mouth.cover", "rules.pipe/no-note", "rules.pipe/fingerings"],
} as const satisfies FamilyTraits;
