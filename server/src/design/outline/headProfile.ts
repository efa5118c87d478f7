/**
 * Lines of a tube's head in the plane of the breath, [z, distance from the axis], mm as drawn. A drawing fills what lies between them; a
 * solid turns them about the axis or pushes them across.
 */
import { tangent } from "./angle.js";
import type { LabiumOutline, RimOutline, TwoChamberOutline } from "./outline.js";

export type ProfilePoint = readonly [z: number, height: number];

/** From the end of the relief at the height `inside` over the edge to the end of the ramp at `outside`. */
export function labiumLine(
  { at, low, high, ramp, relief }: LabiumOutline,
  inside: number,
  outside: number,
): readonly [ProfilePoint, ProfilePoint, ProfilePoint, ProfilePoint] {
  return [
    [at + (low - inside) / tangent(relief), inside],
    [at, low],
    [at, high],
    [at + (outside - high) / tangent(ramp), outside],
  ];
}

/** A notch from the bore over its edge to the end of its ramp at the height `outside`. @param from where the tube's rim is */
export function notchLine(
  { depth, edge, ramp }: NonNullable<RimOutline["notch"]>,
  from: number,
  radius: number,
  outside: number,
): readonly [ProfilePoint, ProfilePoint, ProfilePoint] {
  const at = from + depth;
  return [
    [at, radius],
    [at, radius + edge],
    [at + (outside - (radius + edge)) / tangent(ramp), outside],
  ];
}

/** The slow air chamber's upper end: from the mouth hole at 45° to its full width. */
export function slowChamberLine({
  chamber,
  mouthHole,
}: Pick<TwoChamberOutline, "chamber" | "mouthHole">): readonly [ProfilePoint, ProfilePoint] {
  const [a, m] = [chamber.diameter / 2, mouthHole / 2];
  return [
    [chamber.from, m],
    [chamber.from + (a - m), a],
  ];
}

/** The block tied over the channel, from its foot at the player's end round to its foot at the window; without the groove for the cord. */
export function tiedBlockLine({ block, nest, window }: Pick<TwoChamberOutline, "block" | "nest" | "window">) {
  const { length, height } = block;
  const [from, low, high] = [window.from - length, nest.height, nest.height + height];
  const line: readonly [ProfilePoint, ProfilePoint, ProfilePoint, ProfilePoint, ProfilePoint] = [
    [from, low],
    [from + height / 2, high],
    [window.from - height / 3, high],
    [window.from, low + height / 3],
    [window.from, low],
  ];
  return line;
}
