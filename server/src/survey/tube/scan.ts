/** A look from the axis all round, every few tenths of a millimetre: where the bore is, where wood, where nothing. */
import { medianOfNumbers } from "../../sound/median.js";
import { type Circle, circleOf } from "../mesh/circle.js";
import type { Mesh } from "../mesh/mesh.js";
import { type Profile, profileOf } from "../mesh/profile.js";
import { Sections } from "../mesh/sections.js";

export type Kind = "bore" | "wood" | "none";

export interface Row {
  readonly z: number;
  readonly kind: Kind;
  readonly profile: Profile;
  /** Undefined but in the bore. */
  readonly circle: Circle | undefined;
  /** The middle distance at which the last wood ends. */
  readonly outer: number;
}

function outerOf({ outer }: Profile): number {
  return medianOfNumbers(outer);
}

/** A stretch of bore: rows `first` to `last` of the scan. */
export interface Run {
  readonly first: number;
  readonly last: number;
  readonly from: number;
  readonly to: number;
  /** Whether wood closes it there. */
  readonly closedFrom: boolean;
  readonly closedTo: boolean;
}

export interface Scan {
  readonly sections: Sections;
  readonly rows: readonly Row[];
  readonly runs: readonly Run[];
  readonly step: number;
  readonly at: (z: number) => Row;
  /** −1 where z and the angles run against those of the profiles: it was scanned from the other end. */
  readonly sense: 1 | -1;
  /** Of the mesh along the axis. */
  readonly low: number;
}

/** The same as seen from the other end. */
export function scannedFromOtherEnd({ rows, runs, sections, step, at, sense }: Scan): Scan {
  const turned = (row: Row): Row => ({ ...row, z: -row.z });
  const last = rows.length - 1;
  return {
    sections,
    step,
    sense: sense === 1 ? -1 : 1,
    low: sense === 1 ? -sections.high : sections.low,
    at: (z) => turned(at(-z)),
    rows: rows.map(turned).reverse(),
    runs: runs
      .map((run) => ({
        first: last - run.last,
        last: last - run.first,
        from: -run.to,
        to: -run.from,
        closedFrom: run.closedTo,
        closedTo: run.closedFrom,
      }))
      .reverse(),
  };
}

export const RAYS = 360;
/** Rows over the whole length, and the least and greatest step from one to the next, mm. */
const ROWS = 1200;
const STEPS = [0.2, 0.5] as const;
/** Halvings that bring an end from a step to a nanometre. */
const HALVINGS = 22;
const ASIDE = 0.0123;
/** mm that a bumpy face may reach along the axis. */
const BUMPY = 1;

/** @param mesh along z, its axis on x 0 and y 0; `coarse` mm from row to row, where a bore is known to be plain */
export function scan(mesh: Mesh, coarse?: number): Scan {
  const sections = new Sections(mesh, 2);
  const { low, high } = sections;
  const step = coarse ?? Math.min(STEPS[1], Math.max(STEPS[0], (high - low) / ROWS));
  const at = (z: number): Row => {
    const section = sections.at(z);
    const profile = profileOf(section, 0, 0, RAYS);
    const circle = profile.depth < 1 ? circleOf(section, profile) : undefined;
    return {
      z,
      profile,
      circle,
      outer: outerOf(profile),
      kind: circle !== undefined ? "bore" : profile.depth >= 1 ? "wood" : "none",
    };
  };
  const rows: Row[] = [];
  for (let z = low + ASIDE; z < high; z += step) rows.push(at(z));
  return { sections, rows, runs: runsOf(rows, at, low, high), step, at, sense: 1, low };
}

function runsOf(rows: readonly Row[], at: (z: number) => Row, low: number, high: number): readonly Run[] {
  const isBore = (i: number) => rows[i]?.kind === "bore";
  /** Between a place in the bore and one that is not. */
  const edge = (inside: number, outside: number) => {
    let [a, b] = [inside, outside];
    for (let i = 0; i < HALVINGS; i++) {
      const middle = (a + b) / 2;
      if (at(middle).kind === "bore") a = middle;
      else b = middle;
    }
    return (a + b) / 2;
  };
  /** A face that closes the bore may be bumpy: a row that cuts its bumps is neither. */
  const isWoodNext = (from: number, way: 1 | -1) => {
    let next = from + way;
    while (rows[next]?.kind === "none" && Math.abs((rows[next] as Row).z - (rows[from] as Row).z) < BUMPY) next += way;
    return rows[next]?.kind === "wood";
  };
  const runs: Run[] = [];
  for (let first = 0; first < rows.length; first++) {
    if (!isBore(first)) continue;
    let last = first;
    // A single row that shows nothing may be a broken place; wood is not.
    while (isBore(last + 1) || (rows[last + 1]?.kind === "none" && isBore(last + 2))) last++;
    const [one, other] = [rows[first] as Row, rows[last] as Row];
    runs.push({
      first,
      last,
      from: edge(one.z, rows[first - 1]?.z ?? low - ASIDE),
      to: edge(other.z, rows[last + 1]?.z ?? high + ASIDE),
      closedFrom: isWoodNext(first, -1),
      closedTo: isWoodNext(last, 1),
    });
    first = last;
  }
  return runs;
}
