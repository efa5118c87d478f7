/** The bore's shape at any place. */
import { alongBore } from "../../acoustics/alongBore.js";
import type { BorePoint, Profile } from "./outline.js";

/** Radius of the bore at `at`: straight between stations, the end's beyond; at a step that of the lower side. */
export function boreRadiusAt(bore: readonly BorePoint[], at: number): number {
  const diameter = alongBore(
    bore,
    at,
    (station) => station.at,
    (station) => station.diameter,
  );
  return (diameter ?? 0) / 2;
}

/** Least and greatest radius from one place to another. */
export function boreRange(bore: readonly BorePoint[], from: number, to: number): readonly [number, number] {
  const radii = boreProfile(bore, from, to).map(([, radius]) => radius);
  return [Math.min(...radii), Math.max(...radii)];
}

/** The bore's wall between two places, both ends included, steps as two points. */
export function boreProfile(bore: readonly BorePoint[], from: number, to: number): Profile {
  const inside = bore.filter(({ at }) => at > from && at < to).map(({ at, diameter }) => [at, diameter / 2] as const);
  return [[from, boreRadiusAt(bore, from)], ...inside, [to, radiusBefore(bore, to)]];
}

/** As `boreRadiusAt`; at a step that of the upper side. */
function radiusBefore(bore: readonly BorePoint[], at: number): number {
  const here = bore.find((station) => station.at === at);
  return here === undefined ? boreRadiusAt(bore, at) : here.diameter / 2;
}
