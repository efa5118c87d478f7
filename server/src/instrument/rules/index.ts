/** Every rule of the shape of an instrument, by its kind. An error among their findings means that there is no such instrument to predict. */
import { boreBackwards, boreMissesMouth, tooFewStations } from "./boreStations.js";
import { duplicateHoleName, sideAndAngle } from "./holeNames.js";
import { holeOverlap } from "./holeOverlap.js";
import { holeNeedsPlace, holeOrder, holeOutsideBore, holeRaisedTooFar, holeWiderThanBore } from "./holePlaces.js";
import { incomplete } from "./incomplete.js";
import { mouthKind } from "./mouthKind.js";
import { mouthHoleSize, mouthWiderThanBore, stopperUnderHole } from "./mouthSize.js";
import { fingeringsOfPipes, pipesMissing, pipeWithoutNote } from "./pipes.js";
import { holeClosedByPrint, scaleLooksLikeFactor } from "./printing.js";
import type { Rule } from "./rule.js";
import { vesselHoleShape } from "./vesselHoleShape.js";
import { vesselIncomplete, vesselMouth, vesselOpeningsOverlap, vesselOpeningTooWide } from "./vesselOpenings.js";
import { vesselShapeAssumed, vesselSize } from "./vesselSize.js";

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
  holeRaisedTooFar,
  holeOverlap,
  duplicateHoleName,
  sideAndAngle,
  scaleLooksLikeFactor,
  holeClosedByPrint,
];

export const PIPE_RULES: readonly Rule[] = [
  pipesMissing,
  mouthKind,
  pipeWithoutNote,
  fingeringsOfPipes,
  scaleLooksLikeFactor,
];

export const VESSEL_RULES: readonly Rule[] = [
  vesselIncomplete,
  vesselMouth,
  mouthHoleSize,
  vesselSize,
  vesselShapeAssumed,
  vesselOpeningTooWide,
  vesselOpeningsOverlap,
  vesselHoleShape,
  duplicateHoleName,
  scaleLooksLikeFactor,
  holeClosedByPrint,
];
