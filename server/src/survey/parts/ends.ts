/** What the two ends of a part are: a socket, a tenon, or plain. */
import { median } from "../../sound/median.js";
import type { Row, Scan } from "../tube/scan.js";

export interface End {
  /** The end's own place, and that of the shoulder which the other part's rim meets (of a tenon), along the axis. */
  readonly at: number;
  readonly tenon: { readonly shoulder: number; readonly radius: number } | undefined;
  readonly socket: { readonly depth: number; readonly radius: number } | undefined;
}

/** mm: a step larger than a chamfer. */
const STEP = 0.5;
/** A tenon has at least this length, and at most this ratio of length to width. Common practice, no source. */
const SHORTEST = 4;
const LONGEST = 2.5;

/** The lower end first. */
export function endsOf(scan: Scan): readonly [End, End] {
  const { low, high } = scan.sections;
  const rows = scan.rows.filter(({ circle }) => circle !== undefined);
  return [endOf(rows, low, 1, scan), endOf([...rows].reverse(), high, -1, scan)];
}

/** @param rows from the end inward; `inward` which way that is */
function endOf(rows: readonly Row[], at: number, inward: 1 | -1, scan: Scan): End {
  const outer = rows.map((row) => row.outer);
  const inner = rows.map(({ circle }) => circle?.radius ?? Number.NaN);
  const depthOf = (i: number) => inward * ((rows[i]?.z ?? at) - at);
  const step = stepIn(outer, depthOf, 1);
  const tenon = step && { ...step, depth: sharpened(step, (depth) => scan.at(at + inward * depth).outer) };
  const socket = stepIn(inner, depthOf, -1);
  return {
    at,
    tenon: tenon && { shoulder: at + inward * tenon.depth, radius: tenon.radius },
    socket: socket && { depth: socket.depth, radius: socket.radius },
  };
}

/** The first lasting step of a radius: up (`sense` 1) or down (−1); where it begins, and the radius before it. */
function stepIn(radii: readonly number[], depthOf: (i: number) => number, sense: 1 | -1) {
  for (let i = 1; i + AFTER < radii.length; i++) {
    const depth = depthOf(i);
    if (depth < SHORTEST) continue;
    // Not the chamfer of the rim.
    const before = median(radii.slice(0, i).filter((_, k) => depthOf(k) > CHAMFER));
    if (depth > LONGEST * 2 * before) return undefined;
    // Grooves come back: the step must last.
    if (!radii.slice(i, i + AFTER).every((radius) => sense * (radius - before) > STEP)) continue;
    let begins = i;
    while (begins > 1 && Math.abs((radii[begins - 1] as number) - before) > SAME) begins--;
    // A slow taper is not a step.
    if (depth - depthOf(begins) > SLOPE) return undefined;
    return { depth: depthOf(begins - 1), until: depthOf(begins), radius: before };
  }
  return undefined;
}

/** Halvings from a step of the scan to a nanometre. */
const HALVINGS = 20;

function sharpened(
  step: { readonly depth: number; readonly until: number; readonly radius: number },
  radiusAt: (depth: number) => number,
): number {
  let [a, b] = [step.depth, step.until];
  for (let i = 0; i < HALVINGS; i++) {
    const middle = (a + b) / 2;
    if (Math.abs(radiusAt(middle) - step.radius) > SAME) b = middle;
    else a = middle;
  }
  return b;
}

/** Rows that a step must last. */
const AFTER = 20;
/** mm: what is left out at the rim, what counts as the same radius, and over how much of the axis a step may slope. */
const CHAMFER = 1;
const SAME = 0.1;
const SLOPE = 6;
