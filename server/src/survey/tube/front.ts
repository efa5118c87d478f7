/** Which way the fingers' side of a tube looks. */
import type { HoleFound } from "./hole.js";
import type { Look } from "./look.js";
import { degrees } from "./near.js";

/** Degrees: holes nearer together lie in one line. */
const IN_LINE = 10;

/** The mouth's own direction, or that of most holes; undefined where there is neither. Radians from x toward y. */
export function frontOf({ window, embouchure, notch, holes }: Look): number | undefined {
  const mouth = window ?? embouchure ?? notch;
  if (mouth !== undefined) return mouth.theta;
  const beside = (hole: HoleFound) => holes.filter(({ theta }) => Math.abs(degrees(theta - hole.theta)) < IN_LINE);
  const most = holes.map(beside).reduce((best, each) => (each.length > best.length ? each : best), []);
  if (most.length === 0) return undefined;
  const sum = (of: (angle: number) => number) => most.reduce((total, { theta }) => total + of(theta), 0);
  return Math.atan2(sum(Math.sin), sum(Math.cos));
}
