/** What is cut into a tube and pushed into its bore. Numbers without a name: common practice, no source. */
import { boreProfile, boreRadiusAt } from "../../../server/src/design/outline/bore.js";
import type { HoleOutline, StopperOutline, TubeOutline } from "../../../server/src/design/outline/outline.js";
import { radiusOn } from "../../../server/src/design/outline/tube.js";
import { filled, type Line, nothing, ovals, type Point, turned, wood } from "./lines.js";

/** 45° at edges, and how far air runs past the wood, mm. */
export const CHAMFER = 0.4;
export const FAR = 60;

export type Volumes = ReadonlyMap<string, number>;

/** A cone from the bore to the rim; a finger's seat where the rim lies below the surface. */
export function openingAir(
  { width, length, chimney, undercut = 0 }: Pick<HoleOutline, "width" | "length" | "chimney"> & { undercut?: number },
  bore: number,
  outer: number,
  degrees = 0,
  at = 0,
): Line {
  const rim = bore + chimney;
  const [across, along] = [width / 2, length / 2];
  const wider = (undercut / 2) * (rim / chimney);
  const top = Math.max(rim, outer) + 1;
  const out = top - rim;
  const cone = ovals(
    [
      [0, across + wider, along + wider],
      [rim, across, along],
      [top, across, along],
    ],
    degrees,
    at,
  );
  if (rim >= outer - 1e-9) return cone;
  const seat = ovals(
    [
      [rim, across + 2.5, along + 2.5],
      [top, across + 2.5 + out, along + 2.5 + out],
    ],
    degrees,
    at,
  );
  return wood([cone, seat]);
}

/** Depth of a groove for cord. */
const CORD = 0.8;

export const stopperRadii = ({ radius }: StopperOutline): readonly number[] => [radius, radius - CORD];

/** What is pushed into the bore and follows it: with a gap, edges broken, grooves for cord. */
export function stopper(
  { from, to, radius }: StopperOutline,
  bore: TubeOutline["bore"],
  { grooves, chamfer }: { readonly grooves: number; readonly chamfer: number },
): Line {
  const gap = boreRadiusAt(bore, to) - radius;
  const profile = boreProfile(bore, from, to).map(([z, r]): Point => [z, r - gap]);
  const at = (z: number) => radiusOn(profile, z);
  const depth = CORD;
  const pitch = (to - from) / (grooves + 1);
  const rings = Array.from({ length: grooves }, (_, i) => {
    const [a, b] = [from + (i + 2 / 3) * pitch, from + (i + 4 / 3) * pitch];
    return turned([
      [a, at(a)],
      [a + depth, at(a) - depth],
      [b - depth, at(b) - depth],
      [b, at(b)],
    ]);
  });
  const edge = turned([
    [from, at(from) - CHAMFER],
    [from, FAR],
    [from + CHAMFER, FAR],
    [from + CHAMFER, at(from)],
  ]);
  const exit =
    chamfer === 0
      ? nothing
      : turned([
          [to, at(to) - chamfer],
          [to, FAR],
          [to - chamfer, FAR],
          [to - chamfer, at(to)],
        ]);
  return wood([filled(profile)], [...rings, edge, exit]);
}
