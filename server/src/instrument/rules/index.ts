/** Every rule of the shape of a tube. An error among their findings means that there is no such tube to predict. */
import { boreBackwards, boreMissesMouth, tooFewStations } from "./boreStations.js";
import { duplicateHoleName, sideAndAngle } from "./holeNames.js";
import { holeOverlap } from "./holeOverlap.js";
import { holeNeedsPlace, holeOrder, holeOutsideBore, holeWiderThanBore } from "./holePlaces.js";
import { incomplete } from "./incomplete.js";
import { mouthKind } from "./mouthKind.js";
import { mouthHoleSize, mouthWiderThanBore, stopperUnderHole } from "./mouthSize.js";
import { holeClosedByPrint, scaleLooksLikeFactor } from "./printing.js";
import type { Rule } from "./rule.js";

export const TUBE_RULES: readonly Rule[] = [
  incomplete,
  mouthKind,
  mouthHoleSize,
  mouthWiderThanBore,
  stopperUnderHole,
  tooFewStations,
  boreBackwards,
  boreMissesMouth,
  holeNeedsPlace,
  holeOrder,
  holeOutsideBore,
  holeWiderThanBore,
  holeOverlap,
  duplicateHoleName,
  sideAndAngle,
  scaleLooksLikeFactor,
  holeClosedByPrint,
];
