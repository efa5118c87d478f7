/** Where a vessel leaves the range in which its formulas were checked. */
import type { AirState } from "./airState.js";
import { CHECKED } from "./checkedRanges.js";
import type { Cover } from "./column.js";
import type { Vessel } from "./vesselShape.js";

export interface VesselWarning {
  readonly quantity: "opening over narrowest half axis" | "vessel's half length in wave numbers";
  readonly value: number;
  readonly greatest: number;
  /** Index of the hole; absent for the mouth. */
  readonly hole?: number;
  /** Index into `frequencies`, where a note is meant: the lowest beyond. */
  readonly note?: number;
}

/** Cents by which finite elements of openings within that range, and 0.2 of the half axis wide, were off (docs/coupled-model.md §10). */
const OFF_ON_GROUND = 3;
const WIDTH_ON_GROUND = 0.2;

/**
 * Cents by which a note may be off for its openings beyond the checked width, undefined where none is. The first term that the formulas leave
 * out goes by the square of the width: its value in the checked range is extrapolated by that.
 */
export function offByWidth({ semiAxes, holes }: Vessel, covers: readonly Cover[]): number | undefined {
  const open = holes.flatMap(({ radius }, i) => ((covers[i] ?? 1) < 1 ? [radius] : []));
  const widest = Math.max(0, ...open) / Math.min(...semiAxes);
  return widest > CHECKED.openingOverHalfAxis ? OFF_ON_GROUND * (widest / WIDTH_ON_GROUND) ** 2 : undefined;
}

/** Openings and notes beyond the checked ranges. `frequencies` are Hz of the notes of interest, undefined ones skipped. */
export function vesselWarnings(
  { semiAxes, mouth, holes }: Vessel,
  { soundSpeed }: AirState,
  frequencies: readonly (number | undefined)[],
): readonly VesselWarning[] {
  const narrowest = Math.min(...semiAxes);
  const longest = Math.max(...semiAxes);
  const mouthRadius = Math.sqrt(
    mouth.kind === "window" ? (mouth.width * mouth.cutUp) / Math.PI : (mouth.width * mouth.length) / 4,
  );
  const openings = [{ radius: mouthRadius }, ...holes.map(({ radius }, hole) => ({ radius, hole }))];
  const wide = openings.flatMap(({ radius, ...where }): VesselWarning[] =>
    radius <= CHECKED.openingOverHalfAxis * narrowest
      ? []
      : [
          {
            quantity: "opening over narrowest half axis",
            value: radius / narrowest,
            greatest: CHECKED.openingOverHalfAxis,
            ...where,
          },
        ],
  );
  const lengths = frequencies.map((hz) => ((2 * Math.PI * (hz ?? 0)) / soundSpeed) * longest);
  const least = Math.min(...lengths.filter((value) => value > CHECKED.waveNumberTimesHalfAxis));
  if (!Number.isFinite(least)) return wide;
  const note = lengths.indexOf(least);
  return [
    ...wide,
    { quantity: "vessel's half length in wave numbers", value: least, greatest: CHECKED.waveNumberTimesHalfAxis, note },
  ];
}
