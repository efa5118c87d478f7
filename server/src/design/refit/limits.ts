/**
 * What must hold when an instrument is refitted, as linear inequalities over the unknowns: hands, print, and the ground on
 * which the prediction was checked. Values are millimetres of the printed object.
 */
import { boreRadiusAt, type Column } from "../../acoustics/column.js";
import type { Analysis } from "../analysis.js";
import { holeName } from "../remedy.js";
import type { Inequality } from "./constrainedLeastSquares.js";
import { neighbouringFingers } from "./fingers.js";
import { type Unknown, type UnknownKind, valueIn } from "./unknowns.js";
import type { Wishes } from "./wishes.js";

export interface Limit extends Inequality {
  /** `R3 would need 41 mm of reach, the hand has 34`: said when the limit is in the way. */
  readonly complaint: (needed: number) => string;
  /** What the maker may do about it. */
  readonly advice: string;
  /** The limited quantity at a point, mm. */
  readonly value: (x: readonly number[]) => number;
  /** Its limit, mm. */
  readonly limit: number;
}

const MM = 1e3;
/** Least wall between the edges of two holes, mm: four lines of extrusion. Common practice, no source. */
const LEAST_BRIDGE = 1.6;
/** A refit keeps clear of the bounds of the checked ranges (hole over bore 0.2…0.8), as rounding still follows. */
const NARROWEST_SHARE = 0.21;
const WIDEST_SHARE = 0.78;
/** How far a station may flare or narrow, as a share of what is drawn. Our own limit: more is another instrument. */
const TAPER_SHARE = 0.2;
/** Stations keep this distance, mm: a shorter section is a step. */
const LEAST_SECTION = 5;
/** The stopper's place in bore diameters upstream of the hole's centre. Common practice, no source: about one. */
const STOPPER_SHARES = [0.4, 1.6] as const;

export function limitsOf(
  analysis: Analysis,
  column: Column,
  unknowns: readonly Unknown[],
  wishes: Wishes,
): readonly Limit[] {
  const indexOf = (kind: UnknownKind, of = -1) => unknowns.findIndex((u) => u.kind === kind && u.index === of);
  /** A sum of dimensions: those that are unknown by their index, those that stay by their value. */
  const sum = (terms: readonly (readonly [number, UnknownKind, number?])[]) => {
    const row = new Map<number, number>();
    let constant = 0;
    for (const [factor, kind, of = -1] of terms) {
      const place = indexOf(kind, of);
      if (place >= 0) row.set(place, (row.get(place) ?? 0) + factor);
      else constant += factor * MM * valueIn({ kind, index: of }, column);
    }
    return { row, constant };
  };
  const atLeast = (terms: Parameters<typeof sum>[0], least: number, words: Words): Limit[] =>
    limit(sum(terms), 1, least, words);
  const atMost = (terms: Parameters<typeof sum>[0], most: number, words: Words): Limit[] =>
    limit(sum(terms), -1, most, words);
  const name = (hole: number) => holeName(analysis, hole);

  const holes = column.holes.flatMap((hole, i): Limit[] => {
    const bore = 2 * MM * boreRadiusAt(column.bore, hole.x);
    const stated = wishes.limits(analysis.instrument.holes[i]?.path ?? []);
    const width: Parameters<typeof sum>[0] = [[2, "hole-radius", i]];
    return [
      ...atLeast(width, Math.max(NARROWEST_SHARE * bore, stated.diameter?.[0] ?? 0), {
        complaint: (mm) => `${name(i)} would have to be only ${mm} mm wide`,
        advice: "accept a narrower hole (limits.diameter)",
      }),
      ...atMost(width, Math.min(WIDEST_SHARE * bore, stated.diameter?.[1] ?? Number.POSITIVE_INFINITY), {
        complaint: (mm) => `${name(i)} would have to be ${mm} mm wide in a bore of ${round(bore)} mm`,
        advice: "widen the bore",
      }),
      ...(hole.angle === 0
        ? atMost(width, Math.max(wishes.fingertip, wishes.fingertipStated ? 0 : 2 * MM * hole.radius), {
            complaint: (mm) => `${name(i)} would have to be ${mm} mm wide, the fingertip covers ${wishes.fingertip}`,
            advice: "allow a wider hole (hands.fingertip)",
          })
        : []),
      ...(stated.at === undefined
        ? []
        : [
            ...atLeast([[1, "hole-place", i]], stated.at[0], {
              complaint: (mm) => `${name(i)} would have to lie at ${mm} mm`,
              advice: "widen its limits.at",
            }),
            ...atMost([[1, "hole-place", i]], stated.at[1], {
              complaint: (mm) => `${name(i)} would have to lie at ${mm} mm`,
              advice: "widen its limits.at",
            }),
          ]),
    ];
  });

  const order = column.holes.map((_, i) => i).sort((a, b) => (column.holes[a]?.x ?? 0) - (column.holes[b]?.x ?? 0));
  const bridges = order.flatMap((hole, n): Limit[] => {
    const before = order.slice(0, n).findLast((other) => sameSide(column, other, hole));
    if (before === undefined) return [];
    const between: Parameters<typeof sum>[0] = [
      [1, "hole-place", hole],
      [-1, "hole-place", before],
      [-1, "hole-radius", hole],
      [-1, "hole-radius", before],
    ];
    return atLeast(between, LEAST_BRIDGE, {
      complaint: (mm) => `${name(before)} and ${name(hole)} would have only ${mm} mm of wall between them`,
      advice: "make them narrower",
    });
  });

  const reaches = neighbouringFingers(analysis, column).flatMap(([upper, lower]): Limit[] => {
    const gap: Parameters<typeof sum>[0] = [
      [1, "hole-place", lower],
      [-1, "hole-place", upper],
    ];
    const present = MM * ((column.holes[lower]?.x ?? 0) - (column.holes[upper]?.x ?? 0));
    return atMost(gap, Math.max(wishes.reach, wishes.reachStated ? 0 : present), {
      complaint: (mm) => `${name(upper)} to ${name(lower)} would need ${mm} mm of reach, the hand has ${wishes.reach}`,
      advice: "allow a longer stretch (hands.reach)",
    });
  });

  const last = order.at(-1);
  const foot = column.bore.length - 1;
  const footLimits: Limit[] =
    last === undefined
      ? []
      : atLeast(
          [
            [1, "station-place", foot],
            [-1, "hole-place", last],
            [-1, "hole-radius", last],
          ],
          LEAST_BRIDGE,
          { complaint: () => `the foot would cut into ${name(last)}`, advice: "make the hole narrower" },
        );

  const outline = column.bore.flatMap(({ radius, x }, i): Limit[] => {
    const stated = wishes.limits(["bore", i]);
    const width: Parameters<typeof sum>[0] = [[2, "station-radius", i]];
    const diameter = 2 * MM * radius;
    const [least, most] = stated.diameter ?? [diameter * (1 - TAPER_SHARE), diameter * (1 + TAPER_SHARE)];
    const where = i === foot ? "at the foot" : `at station ${i + 1}`;
    const before = column.bore[i - 1];
    return [
      ...atLeast(width, least, {
        complaint: (mm) => `the bore would have to narrow to ${mm} mm ${where}`,
        advice: "allow it in the station's limits.diameter",
      }),
      ...atMost(width, most, {
        complaint: (mm) => `the bore would have to widen to ${mm} mm ${where}`,
        advice: "allow it in the station's limits.diameter",
      }),
      ...(before === undefined || before.x === x
        ? []
        : atLeast(
            [
              [1, "station-place", i],
              [-1, "station-place", i - 1],
            ],
            LEAST_SECTION,
            { complaint: () => `stations ${i} and ${i + 1} would meet`, advice: "take one of them out" },
          )),
    ];
  });

  const head = 2 * MM * boreRadiusAt(column.bore, 0);
  const stopper: Limit[] =
    indexOf("stopper") < 0
      ? []
      : [
          ...atLeast([[1, "stopper"]], STOPPER_SHARES[0] * head, {
            complaint: (mm) => `the stopper would have to stand ${mm} mm from the embouchure hole`,
            advice: "move the stopper by hand",
          }),
          ...atMost([[1, "stopper"]], STOPPER_SHARES[1] * head, {
            complaint: (mm) => `the stopper would have to stand ${mm} mm from the embouchure hole`,
            advice: "move the stopper by hand",
          }),
        ];
  return [...holes, ...bridges, ...reaches, ...footLimits, ...outline, ...stopper];
}

interface Words {
  readonly complaint: (mm: string) => string;
  readonly advice: string;
}

/** `sign · (row·x + constant) ≥ sign · bound`; nothing where no unknown takes part. */
function limit(
  { row, constant }: { row: ReadonlyMap<number, number>; constant: number },
  sign: 1 | -1,
  bound: number,
  words: Words,
): Limit[] {
  if (row.size === 0 || !Number.isFinite(bound)) return [];
  return [
    {
      row: new Map([...row].map(([i, factor]) => [i, sign * factor])),
      least: sign * (bound - constant),
      limit: bound,
      value: (x) => [...row].reduce((sum, [i, factor]) => sum + factor * (x[i] ?? 0), constant),
      complaint: (needed) => words.complaint(round(needed)),
      advice: words.advice,
    },
  ];
}

function sameSide(column: Column, a: number, b: number): boolean {
  return Math.cos((column.holes[a]?.angle ?? 0) - (column.holes[b]?.angle ?? 0)) > 0.5;
}

function round(mm: number): string {
  return String(Number(mm.toFixed(1)));
}
