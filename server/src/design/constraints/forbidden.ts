/** Why one dimension alone may not take the value it needs: the same limits as in a refit. */
import { roundShape, sharedColumn } from "../../instrument/body.js";
import { t } from "../../words/translation.js";
import { holeName } from "../fix/remedy.js";
import type { Analysis } from "../predict/analysis.js";
import type { Constraints } from "./constraints.js";
import { MM } from "./limit.js";
import { limitsOf } from "./limits.js";
import { type Unknown, valueIn } from "./unknowns.js";
import { vesselHoleLimits } from "./vesselLimits.js";
import { vesselShapeLimits } from "./vesselShapeLimits.js";

/** By how much a limit must be exceeded to count, mm: rounding of drawn numbers must not trigger it. */
const SLACK = 1e-4;

/**
 * The limit in the way of a tube's dimension, in words; undefined where it may become `value`, m of the printed object. One that is exceeded
 * already may not be exceeded further.
 */
export function forbidden(
  analysis: Analysis,
  constraints: Constraints,
  unknown: Unknown,
  value: number,
): string | undefined {
  return forbiddenValues(analysis, constraints, unknown)(value);
}

/** As `forbidden`, of several values: the limits are drawn up once. */
export function forbiddenValues(
  analysis: Analysis,
  constraints: Constraints,
  unknown: Unknown,
): (value: number) => string | undefined {
  const column = sharedColumn(analysis.instrument.body);
  if (column === undefined) return () => undefined;
  const owner = unknown.path.slice(0, 2);
  if (constraints.isFixed(owner)) return () => t`${nameOf(analysis, unknown)} is \`fixed\``;
  const now = MM * valueIn(unknown, column);
  const limits = limitsOf({ analysis, column, unknowns: [unknown], constraints });
  return (value) => {
    const then = MM * value;
    const limit = limits.find(({ row, least }) => {
      const factor = row.get(0) ?? 0;
      return factor * then < Math.min(least, factor * now) - SLACK;
    });
    return limit?.complaint(limit.value([then]));
  };
}

/** The same of the diameter of a vessel's hole, m. */
export function forbiddenWidths(
  analysis: Analysis,
  constraints: Constraints,
  hole: number,
): (diameter: number) => string | undefined {
  const { instrument } = analysis;
  const name = holeName(analysis, hole);
  if (constraints.isFixed(instrument.holes[hole]?.path ?? [])) return () => t`${name} is \`fixed\``;
  const widths = vesselHoleLimits(instrument, constraints, hole, name);
  const isTooWide = wallsBroken(analysis, constraints, hole);
  return (diameter) => {
    const mm = MM * diameter;
    const own = widths.find(({ kind, limit }) => (kind === "least" ? mm < limit - SLACK : mm > limit + SLACK));
    return (own ?? isTooWide(mm / 2))?.message;
  };
}

/** The wall between a hole of a round vessel and another opening that a radius, mm, would leave too thin. */
function wallsBroken(analysis: Analysis, constraints: Constraints, hole: number) {
  const shape = roundShape(analysis.instrument.body);
  const limits = shape === undefined ? [] : vesselShapeLimits(shape, constraints, analysis);
  const own = limits.filter(({ byRadius }) => byRadius.some(([index]) => index === hole));
  return (radius: number) => {
    const now = (index: number) => (index === hole ? radius : MM * (shape?.holes[index]?.radius ?? 0));
    return own.find(
      ({ bySize, byRadius, least }) =>
        byRadius.reduce((sum, [index, factor]) => sum + factor * now(index), bySize) < least - SLACK,
    );
  };
}

/** `L2`, `the foot`, `station 2`. */
export function nameOf(analysis: Analysis, { kind, index }: Unknown): string {
  if (kind === "hole-place" || kind === "hole-radius") return holeName(analysis, index);
  return index === (sharedColumn(analysis.instrument.body)?.bore.length ?? 0) - 1
    ? t("the foot")
    : t`station ${index + 1}`;
}
