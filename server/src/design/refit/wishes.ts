/** What the design says about what a refit may do: hands, limits, things that stay. Printed millimetres. */
import type { DesignDocument } from "../../document/designFile.js";
import { numberAt } from "../../document/designNumbers.js";
import { nodeAt } from "../../document/tree.js";
import { DEFAULTS } from "../../instrument/defaults.js";
import type { Path } from "../../instrument/finding.js";

export interface Wishes {
  /** Greatest distance between neighbouring fingers' holes, mm. */
  readonly reach: number;
  readonly reachStated: boolean;
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
  const hand = (name: string) => {
    const value = drawn(["hands", name]);
    return value === undefined ? undefined : value * instrument.unitMillimetres;
  };
  const pair = (path: Path, undersize: number): readonly [number, number] | undefined => {
    const [least, greatest] = [drawn([...path, 0]), drawn([...path, 1])];
    if (least === undefined || greatest === undefined) return undefined;
    const unit = 1e3 * instrument.printedUnit;
    return [least * unit - undersize, greatest * unit - undersize];
  };
  const reach = hand("reach");
  const fingertip = hand("fingertip");
  return {
    reach: reach ?? DEFAULTS.reachMillimetres,
    reachStated: reach !== undefined,
    fingertip: fingertip ?? DEFAULTS.fingertipMillimetres,
    fingertipStated: fingertip !== undefined,
    isFixed: (path) => {
      const node = nodeAt(document.root, [...path, "fixed"]);
      return node?.kind === "scalar" && node.value === true;
    },
    limits: (path) => {
      const undersize = path[0] === "holes" ? 1e3 * instrument.holeUndersize : 0;
      const [at, diameter] = [pair([...path, "limits", "at"], 0), pair([...path, "limits", "diameter"], undersize)];
      return { ...(at === undefined ? {} : { at }), ...(diameter === undefined ? {} : { diameter }) };
    },
  };
}
