/** What the design says about what a refit may do: hands, limits, things that stay. Printed millimetres. */
import type { DesignDocument } from "../../document/designFile.js";
import { DEFAULTS, HANDS } from "../../instrument/defaults.js";
import type { Path } from "../../instrument/finding.js";
import type { FingersApart } from "../../instrument/hands/fingers.js";
import { jointsOf } from "../../instrument/making/joints.js";
import { layingOfBlock, longestRod, type Size } from "../../instrument/making/laying.js";
import {
  bedOf,
  fingertipOf,
  holeGapOf,
  type MakerLimit,
  mayLean,
  reachOf,
  spacingOf,
  thumbReachOf,
} from "../../instrument/making/makerLimits.js";
import { headBeyond, type JointRoom, jointRoom, tenonLength } from "../../instrument/making/solidLengths.js";
import { stockOf } from "../../instrument/making/stock.js";
import { own, valueAt } from "../../instrument/path.js";

export interface JointConstraint {
  /** Its place among the bore's stations. */
  readonly station: number;
  /** Length of its tenon as drawn, mm. */
  readonly tenon: number;
  readonly room: JointRoom;
}

export interface Constraints {
  /** Equal for designs that allow the same: what is proposed for one holds for the other. */
  readonly key: string;
  /** Greatest distance between the holes of two neighbouring fingers of a hand. */
  reach(pair: Exclude<FingersApart, "hands">): MakerLimit;
  /** Least distance between the holes of fingers that lie beside each other. */
  spacing(pair: FingersApart): MakerLimit;
  /** Greatest distance of a thumb's hole from the nearest finger of its hand. */
  readonly thumb: MakerLimit;
  /** Where the tube is split. */
  readonly joints: readonly JointConstraint[];
  /** Wall to leave between two holes' edges, and to the mouth and the foot, mm. */
  readonly holeGap: number;
  /** Longest part, mm, of a given width in mm that the printer's bed takes, lying, standing or, where the design allows it, leaning; infinite where no bed is stated. */
  longestPart(width: number): number;
  /** Whether the printer's bed takes a block of these sizes, mm; true where no bed is stated. */
  fitsBed(block: Size): boolean;
  /** What the head adds above the edge of a window or above a stopper's face, mm. */
  readonly head: number;
  /** Widest hole a fingertip covers, mm. */
  readonly fingertip: number;
  readonly fingertipStated: boolean;
  /** Share of the greatest width of a hole that may be drawn: below 1 where room is left to open it at the bench. */
  readonly openedShare: number;
  /** Whether the bore may change its taper, or a cylinder become a taper (`refit.taper: free`). */
  readonly taperIsFree: boolean;
  /** Greatest undercut that a refit may give a hole, mm on the diameter as printed; 0 where holes stay as they are cut (`refit.undercut`). */
  readonly undercut: number;
  /** Diameters of the drills at hand, mm, as they bore, narrowest first; undefined where none are named. */
  readonly drills: readonly number[] | undefined;
  /** True where the hole or station at `path` stays as drawn. */
  isFixed(path: Path): boolean;
  /** `limits` of the hole or station at `path`, mm. */
  limits(path: Path): { readonly at?: readonly [number, number]; readonly diameter?: readonly [number, number] };
}

/**
 * Share of a hole's width that a cent of opening takes: what is drawn flat for the bench must not be drawn as wide as fingertip or bore
 * let it be. The holes of our own examples follow by 1 cent for 8 to 16 thousandths, wide ones the least. Our own reckoning.
 */
const ROOM_TO_OPEN = 0.014;

/** However much room is asked. */
const LEAST_SHARE = 0.5;

/** The same of the made thing, which may be opened as far as the fingertip closes. */
export function benchConstraintsOf(document: Pick<DesignDocument, "resolution">): Constraints {
  const { draft } = document.resolution;
  return { ...constraintsOf(document), fingertip: fingertipOf(draft)?.mm ?? HANDS.adult.fingertip, openedShare: 1 };
}

export function constraintsOf({ resolution }: Pick<DesignDocument, "resolution">): Constraints {
  const { draft, instrument } = resolution;
  const { data, numbers } = draft;
  const joints = jointsOf(draft);
  const usualRoom = DEFAULTS.jointClearanceMillimetres;
  const unit = 1e3 * instrument.printedUnit;
  // What is written but cannot be used has its finding; a refit uses the usual value.
  const reach: Constraints["reach"] = (pair) => reachOf(draft, pair) ?? usual(HANDS.adult.reach[pair]);
  const { hand, hands: between } = HANDS.adult.spacing;
  const spacing: Constraints["spacing"] = (pair) => spacingOf(draft, pair) ?? usual(pair === "hands" ? between : hand);
  const thumb = thumbReachOf(draft) ?? usual(HANDS.adult.thumb);
  const fingertip = fingertipOf(draft) ?? usual(HANDS.adult.fingertip);
  const bed = bedOf(draft);
  // Limits are as drawn and grow with the print scale, as hands do not.
  const pair = (path: Path, undersize: number): readonly [number, number] | undefined => {
    const [least, greatest] = [numbers.at([...path, 0]), numbers.at([...path, 1])];
    if (least === undefined || greatest === undefined) return undefined;
    return [least * unit - undersize, greatest * unit - undersize];
  };
  const limits: Constraints["limits"] = (path) => {
    const undersize = path[0] === "holes" ? 1e3 * instrument.holeUndersize : 0;
    const [at, diameter] = [pair([...path, "limits", "at"], 0), pair([...path, "limits", "diameter"], undersize)];
    return { ...(at === undefined ? {} : { at }), ...(diameter === undefined ? {} : { diameter }) };
  };
  const isFixed = (path: Path) => own(valueAt(data, path), "fixed") === true;
  const leans = mayLean(draft);
  // What shrinks on cooling is printed larger.
  const shrunk = unit / (instrument.unitMillimetres * instrument.printScale);
  const movable = [...instrument.holes.map(({ path }) => path), ...(draft.bore ?? []).map(({ path }) => path)];
  const fingers = (["indexMiddle", "middleRing", "ringLittle"] as const).map((pair) => [reach(pair), spacing(pair)]);
  const taperIsFree = valueAt(data, ["refit", "taper"]) === "free";
  const drills = stockOf(draft, "drills");
  const openedShare = Math.max(LEAST_SHARE, 1 - ROOM_TO_OPEN * instrument.drawnFlat.room);
  const undercut = unit * Math.max(0, numbers.at(["refit", "undercut"]) ?? 0);
  const hands = [
    taperIsFree,
    undercut,
    drills,
    fingers,
    spacing("hands"),
    thumb,
    fingertip,
    openedShare,
    [bed, leans],
    joints.map(({ at }) => [at, tenonLength(draft, at), jointRoom(draft, at, unit)]),
    holeGapOf(draft),
  ];
  return {
    key: JSON.stringify([hands, headBeyond(draft), movable.map((path) => [isFixed(path), limits(path)])]),
    reach,
    spacing,
    thumb,
    joints: joints.map(({ at, path }) => ({
      station: Number(path[1]),
      tenon: unit * tenonLength(draft, at),
      room: jointRoom(draft, at, unit) ?? { upstream: usualRoom, downstream: usualRoom },
    })),
    holeGap: holeGapOf(draft)?.mm ?? DEFAULTS.holeGapMillimetres,
    longestPart: (width) =>
      bed === undefined ? Number.POSITIVE_INFINITY : shrunk * longestRod(width / shrunk, bed, leans),
    fitsBed: ([long, wide, high]) =>
      bed === undefined || layingOfBlock([long / shrunk, wide / shrunk, high / shrunk], bed) !== undefined,
    head: unit * headBeyond(draft),
    fingertip: fingertip.mm * openedShare,
    openedShare,
    fingertipStated: fingertip.stated,
    taperIsFree,
    undercut,
    drills,
    isFixed,
    limits,
  };
}

function usual(mm: number): MakerLimit {
  return { mm, stated: false };
}
