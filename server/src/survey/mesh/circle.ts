/** The circle of a profile: as large in area, in spite of openings. */
import { median, medianOver } from "../../sound/median.js";
import { directionsOf, type Profile, WALL } from "./profile.js";
import { unsureOf } from "./roughness.js";
import type { Section } from "./sections.js";

export interface Circle {
  /** Of equal area: what sounds, needs no guess about facets, and averages noise. */
  readonly radius: number;
  /** Of its middle, from the profile's point. */
  readonly x: number;
  readonly y: number;
  /** Share of the directions that show the circle. */
  readonly share: number;
  /** Root mean square that the wall leaves it. */
  readonly rms: number;
  /** Standard deviation of the radius, by the wall's bumps. */
  readonly unsure: number;
  /** Distance of the corners between flat sides from the middle, and how many sides there would be all round. */
  readonly corner: number;
  readonly sides: number;
}

const ROUNDS = 6;
const LEAST_SHARE = 0.2;
/** A direction off the circle by more than this many deviations shows something else. */
const CUT = 3.5 * 1.4826;

/** @param least share of the directions that must show a wall at all */
export function circleOf(section: Section, profile: Profile, least = 0.3): Circle | undefined {
  const { rays, inner, state } = profile;
  const { cos, sin } = directionsOf(rays);
  const seen: number[] = [];
  for (let k = 0; k < rays; k++) if (state[k] === WALL) seen.push(k);
  if (seen.length < least * rays) return undefined;
  let used = seen;
  let radius = medianOver(seen.length, (i) => inner[seen[i] as number] as number);
  let [x, y, tolerance] = [0, 0, Math.max(0.25, 0.08 * radius)];
  const off = (k: number) => Math.abs((inner[k] as number) - radius - x * (cos[k] as number) - y * (sin[k] as number));
  for (let round = 0; round < ROUNDS; round++) {
    const now = seen.filter((k) => off(k) < tolerance);
    if (now.length < LEAST_SHARE * rays) return undefined;
    const isSame = round > 0 && now.length === used.length;
    used = now;
    ({ radius, x, y } = fitted(used, profile));
    if (isSame) break;
    tolerance = Math.max(CUT * medianOver(now.length, (i) => off(now[i] as number)), 0.004 * radius, 0.02);
  }
  let [squares, sum] = [0, 0];
  const residuals = new Float64Array(rays).fill(Number.NaN);
  const pieces = new Set<number>();
  for (const k of used) {
    const r = (inner[k] as number) - x * (cos[k] as number) - y * (sin[k] as number);
    squares += r * r;
    sum += r;
    residuals[k] = r - radius;
    pieces.add(profile.piece[k] as number);
  }
  const share = used.length / rays;
  const mean = sum / used.length;
  return {
    radius: Math.sqrt(squares / used.length),
    x,
    y,
    share,
    rms: Math.sqrt(Math.max(0, squares / used.length - mean * mean)),
    unsure: unsureOf(residuals).radius,
    corner: median([...pieces].map((piece) => cornerOf(section, piece, x, y))),
    sides: Math.round(directionsAmong(section, pieces) / share),
  };
}

/** Degrees: pieces that look so nearly the same way are one flat side. */
const ONE_SIDE = 1;

function directionsAmong({ normals }: Section, pieces: ReadonlySet<number>): number {
  const angles = [...pieces].map(
    (i) => (Math.atan2(normals[2 * i + 1] as number, normals[2 * i] as number) * 180) / Math.PI,
  );
  const sorted = angles.sort((a, b) => a - b);
  const around = (sorted[0] ?? 0) + 360;
  return sorted.filter((angle, i) => (sorted[i + 1] ?? around) - angle > ONE_SIDE).length;
}

/** Distance of a flat side's farther end from the middle. */
export function cornerOf({ ends }: Section, piece: number, x: number, y: number): number {
  const reach = (k: number) =>
    ((ends[4 * piece + k] as number) - x) ** 2 + ((ends[4 * piece + k + 1] as number) - y) ** 2;
  return Math.sqrt(Math.max(reach(0), reach(2)));
}

/** Radius and middle, to first order, by least squares. */
function fitted(used: readonly number[], { inner, rays }: Profile) {
  const directions = directionsOf(rays);
  let [c, s, cc, ss, cs, r, rc, rs] = [0, 0, 0, 0, 0, 0, 0, 0];
  for (const k of used) {
    const cos = directions.cos[k] as number;
    const sin = directions.sin[k] as number;
    const value = inner[k] as number;
    c += cos;
    s += sin;
    cc += cos * cos;
    ss += sin * sin;
    cs += cos * sin;
    r += value;
    rc += value * cos;
    rs += value * sin;
  }
  const [radius, x, y] = solve3([used.length, c, s, c, cc, cs, s, cs, ss], [r, rc, rs]);
  return { radius, x, y };
}

/** By Cramer's rule. */
function solve3(m: readonly number[], right: readonly number[]): [number, number, number] {
  const whole = determinant(m);
  return [0, 1, 2].map((column) => {
    const replaced = m.map((value, i) => (i % 3 === column ? (right[Math.floor(i / 3)] as number) : value));
    return determinant(replaced) / whole;
  }) as [number, number, number];
}

function determinant(m: readonly number[]): number {
  const [a, b, c, d, e, f, g, h, i] = m as [number, number, number, number, number, number, number, number, number];
  return a * (e * i - f * h) - b * (d * i - f * g) + c * (d * h - e * g);
}
