/** What the design says about what a refit may do: hands, limits, things that stay. Printed millimetres. */
import type { DesignDocument } from "../../document/designFile.js";
import { numberAt } from "../../document/designNumbers.js";
import { nodeAt } from "../../document/tree.js";
import { DEFAULTS } from "../../instrument/defaults.js";
import type { Path } from "../../instrument/finding.js";
import { longestRod } from "../../instrument/laying.js";

export interface Wishes {
  /** Greatest distance between neighbouring fingers' holes, mm. */
  readonly reach: number;
  readonly reachStated: boolean;
  /** Greatest distance of a thumb's hole from the nearest finger of its hand, mm. */
  readonly thumb: number;
  readonly thumbStated: boolean;
  /** Indices of the stations at which the tube is parted, and how far holes keep from them, mm. */
  readonly joints: readonly number[];
  readonly jointClearance: number;
  /** Wall to leave between two holes' edges, and to the mouth and the foot, mm. */
  readonly holeGap: number;
  /** Longest part, mm, of so many mm across that the printer's bed takes, lying, leaning or standing; endless where no bed is stated. */
  longestPart(width: number): number;
  /** What lies above a window beside the tube, mm: the windway and the slow air chamber. */
  readonly channel: number;
  /** Widest hole a fingertip covers, mm. */
  readonly fingertip: number;
  readonly fingertipStated: boolean;
  /** True where the hole or station at `path` is to stay as drawn. */
  isFixed(path: Path): boolean;
  /** `limits` of the hole or station at `path`, mm. */
  limits(path: Path): { readonly at?: readonly [number, number]; readonly diameter?: readonly [number, number] };
}

export function wishesOf(document: DesignDocument): Wishes {
  const { instrument } = document.resolution;
  const drawn = (path: Path) => numberAt(document, path)?.value;
  // Hands do not grow with the print scale; limits are as drawn, and do.
  const unscaled = (...path: Path) => {
    const value = drawn(path);
    return value === undefined ? undefined : value * instrument.unitMillimetres;
  };
  const pair = (path: Path, undersize: number): readonly [number, number] | undefined => {
    const [least, greatest] = [drawn([...path, 0]), drawn([...path, 1])];
    if (least === undefined || greatest === undefined) return undefined;
    const unit = 1e3 * instrument.printedUnit;
    return [least * unit - undersize, greatest * unit - undersize];
  };
  const [reach, thumb, fingertip] = ["reach", "thumb", "fingertip"].map((name) => unscaled("hands", name));
  const holds = (path: Path, name: string) => {
    const node = nodeAt(document.root, [...path, name]);
    return node?.kind === "scalar" && node.value === true;
  };
  const stations = instrument.column?.bore ?? [];
  return {
    reach: reach ?? DEFAULTS.reachMillimetres,
    reachStated: reach !== undefined,
    thumb: thumb ?? reach ?? DEFAULTS.reachMillimetres,
    thumbStated: thumb !== undefined || reach !== undefined,
    joints: stations.flatMap((_, i) => (i > 0 && i < stations.length - 1 && holds(["bore", i], "joint") ? [i] : [])),
    jointClearance: unscaled("print", "jointClearance") ?? DEFAULTS.jointClearanceMillimetres,
    holeGap: unscaled("print", "holeGap") ?? DEFAULTS.holeGapMillimetres,
    longestPart: (width) => {
      const bed = [0, 1, 2].map((i) => unscaled("print", "bed", i) ?? Number.NaN) as [number, number, number];
      if (!bed.every((side) => side > 0)) return Number.POSITIVE_INFINITY;
      // What shrinks on cooling is laid larger.
      const shrunk = (1e3 * instrument.printedUnit) / (instrument.unitMillimetres * instrument.printScale);
      return shrunk * longestRod(width / shrunk, bed);
    },
    channel:
      1e3 *
      instrument.printedUnit *
      ((drawn(["mouth", "windway", "length"]) ?? 0) + (drawn(["mouth", "chamber", "length"]) ?? 0)),
    fingertip: fingertip ?? DEFAULTS.fingertipMillimetres,
    fingertipStated: fingertip !== undefined,
    isFixed: (path) => holds(path, "fixed"),
    limits: (path) => {
      const undersize = path[0] === "holes" ? 1e3 * instrument.holeUndersize : 0;
      const [at, diameter] = [pair([...path, "limits", "at"], 0), pair([...path, "limits", "diameter"], undersize)];
      return { ...(at === undefined ? {} : { at }), ...(diameter === undefined ? {} : { diameter }) };
    },
  };
}
