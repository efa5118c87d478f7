/** Every rule of the shape of an instrument, by its kind. An error among their findings means that there is no such instrument to predict. */
import type { MakingRule } from "../making/making.js";
import { longerThanBed } from "./bed.js";
import { boreBackwards, boreMissesMouth, tooFewStations } from "./boreStations.js";
import { outsideBounds } from "./bounds.js";
import { fingersTooNear, holeTooWide, outOfReach, thumbOutOfReach } from "./hands.js";
import { holeElevation } from "./holeElevation.js";
import { duplicateHoleName, sideAndAngle } from "./holeNames.js";
import { holeOverlap } from "./holeOverlap.js";
import { holeNeedsPlace, holeOrder, holeOutsideBore, holeRaisedTooFar, holeWiderThanBore } from "./holePlaces.js";
import { holeNearJoint, holeTooNear } from "./holeRoom.js";
import { incomplete } from "./incomplete.js";
import { limitsReversed } from "./limitsReversed.js";
import { unplayedMeasured } from "./measuredNotes.js";
import { mouthExtra } from "./mouthExtra.js";
import { mouthKind } from "./mouthKind.js";
import { mouthHoleSize, mouthWiderThanBore, stopperTooFar, stopperUnderHole } from "./mouthSize.js";
import { fingeringsOfPipes, pipesMissing, pipeWithoutNote } from "./pipes.js";
import { scaleLeavesLines, wallLines, wallTooThin } from "./printedWall.js";
import { holeClosedByPrint, scaleLooksLikeFactor } from "./printing.js";
import type { BodyRule, DataRule, MeasuredRule, NumberRule, Rule } from "./rule.js";
import { outsideSizes } from "./sizes.js";
import { formatVersion } from "./version.js";
import { vesselHolePlace } from "./vesselHolePlace.js";
import { vesselHoleShape } from "./vesselHoleShape.js";
import { vesselIncomplete, vesselMouth, vesselOpeningsOverlap, vesselOpeningTooWide } from "./vesselOpenings.js";
import { vesselShapeAssumed, vesselSize } from "./vesselSize.js";

export const DATA_RULES: readonly DataRule[] = [formatVersion];
/** A number that one of them has reported is skipped by the next. */
export const NUMBER_RULES: readonly NumberRule[] = [outsideBounds, outsideSizes];
export const BODY_RULES: readonly BodyRule[] = [mouthExtra];
export const MEASURED_RULES: readonly MeasuredRule[] = [unplayedMeasured];

/** What hands and printer ask, of every family. Never an error: what cannot be held or printed can still be predicted. */
export const MAKING_RULES: readonly MakingRule[] = [
  outOfReach,
  fingersTooNear,
  thumbOutOfReach,
  holeTooWide,
  holeTooNear,
  holeNearJoint,
  wallTooThin,
  wallLines,
  scaleLeavesLines,
  longerThanBed,
];

export const TUBE_RULES: readonly Rule[] = [
  incomplete,
  mouthKind,
  mouthHoleSize,
  mouthWiderThanBore,
  stopperUnderHole,
  stopperTooFar,
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
  holeElevation,
  limitsReversed,
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
  vesselHolePlace,
  vesselHoleShape,
  duplicateHoleName,
  limitsReversed,
  scaleLooksLikeFactor,
  holeClosedByPrint,
];
