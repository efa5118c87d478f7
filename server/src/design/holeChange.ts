/** How far a hole must move, or how wide it must be, for one note to come right. Pure numbers; edits are made elsewhere. */
import { boreRadiusAt, type Column, type ToneHole } from "../acoustics/column.js";
import { soundingFrequencies } from "../acoustics/resonance.js";
import { centsAbove } from "../music/cents.js";
import type { Analysis } from "./analysis.js";
import { secant } from "./solve.js";

export interface HoleChange {
  readonly kind: "move" | "resize";
  readonly hole: number;
  /** Index into `analysis.fingerings` of the note that comes right. */
  readonly fingering: number;
  /** New place or diameter of the printed hole, m. */
  readonly value: number;
  /** Change from the present place or diameter, m. */
  readonly change: number;
}

/** Nearer than this a solution is right: a tenth of what anybody can hear. Cents. */
const CLOSE_ENOUGH = 0.05;
/** Holes wider than this share of the bore leave the ground of the hole formulas (coupling model: 0.2…0.8). */
const WIDEST_SHARE = 0.8;
const NARROWEST_SHARE = 0.15;
/** Least wall to leave between two holes' edges, m: about four extrusion widths. Common practice, no source. */
const LEAST_BRIDGE = 1.6e-3;
/** First trial step of the solver, m. */
const TRIAL_STEP = 0.5e-3;

/**
 * The moves and sizes of hole `hole` that put fingering `fingering` right, everything else as it is; those that would run
 * into a neighbour, out of the bore or off the formulas' ground are left out.
 */
export function holeChanges(analysis: Analysis, hole: number, fingering: number): readonly HoleChange[] {
  const { column } = analysis.instrument;
  const prediction = analysis.fingerings[fingering];
  const old = column?.holes[hole];
  if (column === undefined || old === undefined || prediction?.targetHz === undefined) return [];
  const { covers, register } = prediction.fingering;
  const target = prediction.targetHz;
  if (covers === undefined) return [];
  const deviationWith = (changed: ToneHole): number | undefined => {
    const [sounding] = soundingFrequencies(withHole(column, hole, changed), analysis.air, [{ covers, register }]);
    return sounding === undefined ? undefined : centsAbove(sounding.frequency, target);
  };
  const changes: HoleChange[] = [];
  const place = solvePlace(column, hole, old, deviationWith);
  if (place !== undefined) changes.push({ kind: "move", hole, fingering, value: place, change: place - old.x });
  const radius = solveRadius(column, old, deviationWith);
  if (radius !== undefined)
    changes.push({ kind: "resize", hole, fingering, value: 2 * radius, change: 2 * (radius - old.radius) });
  return changes;
}

type Deviation = (hole: ToneHole) => number | undefined;

function solvePlace(column: Column, index: number, old: ToneHole, deviation: Deviation): number | undefined {
  const sameSide = (other: ToneHole | undefined) => other !== undefined && Math.cos(other.angle - old.angle) > 0.5;
  const room = (other: ToneHole | undefined) =>
    other !== undefined && sameSide(other) ? other.radius + old.radius + LEAST_BRIDGE : 0;
  const before = column.holes[index - 1];
  const after = column.holes[index + 1];
  const end = column.bore.at(-1)?.x ?? old.x;
  const least = before === undefined ? old.radius : before.x + room(before);
  const greatest = after === undefined ? end - old.radius : after.x - room(after);
  if (!(least < greatest)) return undefined;
  return secant((x) => deviation({ ...old, x }), old.x, old.x + TRIAL_STEP, {
    least,
    greatest,
    tolerance: CLOSE_ENOUGH,
  });
}

function solveRadius(column: Column, old: ToneHole, deviation: Deviation): number | undefined {
  const bore = boreRadiusAt(column.bore, old.x);
  return secant((radius) => deviation({ ...old, radius }), old.radius, old.radius + TRIAL_STEP / 2, {
    least: NARROWEST_SHARE * bore,
    greatest: WIDEST_SHARE * bore,
    tolerance: CLOSE_ENOUGH,
  });
}

function withHole(column: Column, index: number, hole: ToneHole): Column {
  return { ...column, holes: column.holes.map((old, i) => (i === index ? hole : old)) };
}

/** The length of bore that puts an all-closed fingering right: new place of the foot, m; undefined where none does. */
export function footPlace(analysis: Analysis, fingering: number): number | undefined {
  const { column } = analysis.instrument;
  const prediction = analysis.fingerings[fingering];
  const foot = column?.bore.at(-1);
  if (column === undefined || foot === undefined || prediction?.targetHz === undefined) return undefined;
  const { covers, register } = prediction.fingering;
  if (covers === undefined) return undefined;
  const target = prediction.targetHz;
  const least = Math.max(
    column.bore.at(-2)?.x ?? 0,
    (column.holes.at(-1)?.x ?? 0) + (column.holes.at(-1)?.radius ?? 0),
  );
  return secant(
    (x) => {
      const changed = { ...column, bore: [...column.bore.slice(0, -1), { ...foot, x }] };
      const [sounding] = soundingFrequencies(changed, analysis.air, [{ covers, register }]);
      return sounding === undefined ? undefined : centsAbove(sounding.frequency, target);
    },
    foot.x,
    foot.x + TRIAL_STEP,
    { least: least + TRIAL_STEP, greatest: 3 * foot.x, tolerance: CLOSE_ENOUGH },
  );
}
