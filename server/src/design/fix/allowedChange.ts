/** The changes of one hole, or of the foot's place, that put a note right and that the design allows, as they are drawn. */

import type { Steps } from "../../acoustics/steps.js";
import { sharedColumn } from "../../instrument/body.js";
import { bodyTraits } from "../../instrument/families/bodyTraits.js";
import type { Constraints } from "../constraints/constraints.js";
import { forbiddenValues, forbiddenWidths } from "../constraints/forbidden.js";
import { holePlace, type Unknown } from "../constraints/unknowns.js";
import type { Analysis } from "../predict/analysis.js";
import { toDrawn } from "../wording.js";
import type { HoleChange } from "./change.js";
import { footPlaceSteps, holeChangeSteps } from "./holeChange.js";

export interface Allowed<T> {
  readonly changes: readonly T[];
  /** What is in the way of each change that would put the note right and is not allowed. */
  readonly inTheWay: readonly string[];
}

export function* allowedHoleSteps(
  analysis: Analysis,
  constraints: Constraints,
  hole: number,
  fingering: number,
): Steps<Allowed<HoleChange>> {
  const solved = yield* holeChangeSteps(analysis, hole, fingering);
  const found = solved.map((change) => allowedAsDrawn(analysis, constraints, change));
  return {
    changes: found.filter((each) => typeof each !== "string"),
    inTheWay: [...new Set(found.filter((each) => typeof each === "string"))],
  };
}

function allowedAsDrawn(analysis: Analysis, constraints: Constraints, change: HoleChange): HoleChange | string {
  const { instrument } = analysis;
  const { kind, hole } = change;
  const undersize = kind === "resize" ? instrument.holeUndersize : 0;
  const byWidthAlone = !bodyTraits(instrument.body).holesTunedByPlace;
  const inTheWay = byWidthAlone
    ? forbiddenWidths(analysis, constraints, hole)
    : forbiddenValues(analysis, constraints, unknownOf(analysis, change));
  const isHalved = kind === "resize" && !byWidthAlone;
  const why = (value: number) => inTheWay(isHalved ? value / 2 : value);
  const [value, reason] = drawnWithin(change.value, undersize, analysis, why);
  return reason ?? { ...change, value, change: change.change + value - change.value };
}

function unknownOf({ instrument }: Analysis, { kind, hole }: HoleChange): Unknown {
  const column = sharedColumn(instrument.body);
  if (kind === "move" && column !== undefined) return holePlace(instrument, column, hole);
  return { kind: "hole-radius", index: hole, path: [...(instrument.holes[hole]?.path ?? []), "diameter"] };
}

/** The step of the drawing nearest to `metres` that is allowed; else the nearest one, with what forbids it. */
function drawnWithin(
  metres: number,
  undersize: number,
  { instrument }: Analysis,
  why: (value: number) => string | undefined,
): readonly [number, string | undefined] {
  const { printedUnit, rounding } = instrument;
  const nearest = toDrawn((metres + undersize) / printedUnit, instrument);
  const printed = (drawn: number) => toDrawn(drawn, instrument) * printedUnit - undersize;
  const beside = printed(nearest) > metres ? nearest - rounding : nearest + rounding;
  const reason = why(printed(nearest));
  // A limit between two steps allows the step that keeps it; one that the exact value breaks does not.
  if (reason === undefined || why(metres) !== undefined || why(printed(beside)) !== undefined)
    return [printed(nearest), reason];
  return [printed(beside), undefined];
}

/** New place of the foot, m. */
export function* allowedFootSteps(
  analysis: Analysis,
  constraints: Constraints,
  fingering: number,
): Steps<Allowed<number>> {
  const place = yield* footPlaceSteps(analysis, fingering);
  const index = (sharedColumn(analysis.instrument.body)?.bore.length ?? 0) - 1;
  if (place === undefined) return { changes: [], inTheWay: [] };
  const foot: Unknown = { kind: "station-place", index, path: ["bore", index, "at"] };
  const [drawn, reason] = drawnWithin(place, 0, analysis, forbiddenValues(analysis, constraints, foot));
  return reason === undefined ? { changes: [drawn], inTheWay: [] } : { changes: [], inTheWay: [reason] };
}
