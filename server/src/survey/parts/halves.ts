/** A vessel that was printed in halves, put together: rim on rim, turned until the outlines agree. */
import { combined, framed, type Mesh } from "../mesh/mesh.js";
import { RIM_RAYS, type Rim, rimOf } from "./rim.js";

export interface Halves {
  readonly mesh: Mesh;
  /** Whether only one turn makes the outlines agree. */
  readonly isSure: boolean;
}

/** mm, root mean square: outlines that differ by more are not halves of one body. */
const AGREE = 0.4;
/** mm by which a turn must be worse than the best one, somewhere away from it, to be ruled out. */
const WORSE = 0.02;
/** Degrees about the best turn that count as the same. */
const SAME_TURN = 20;

/**
 * Undefined where they do not fit. The first stays above, its rim on the plane z 0.
 * @param isOtherTurn whether, of several turns that fit, the one farthest from how they lie is taken
 */
export function halvesTogether(one: Mesh, other: Mesh, isOtherTurn = false): Halves | undefined {
  const [upper, lower] = [rimOf(one, 1), rimOf(other, -1)];
  if (upper === undefined || lower === undefined) return undefined;
  const off = Array.from({ length: RIM_RAYS }, (_, turn) => apart(upper, lower, turn));
  const least = Math.min(...off);
  if (!(least < AGREE)) return undefined;
  const away = (turn: number, from: number) => Math.abs(((turn - from + 1.5 * RIM_RAYS) % RIM_RAYS) - RIM_RAYS / 2);
  // Of those that agree as well, the one with the halves turned over as they lie.
  const fit = off.flatMap((each, turn) => (each < least + WORSE ? [turn] : []));
  const asLying = isOtherTurn ? RIM_RAYS / 2 : 0;
  const lying = fit.reduce((nearest, turn) => (away(turn, asLying) < away(nearest, asLying) ? turn : nearest));
  const near = fit.filter((turn) => away(turn, lying) < SAME_TURN);
  const best = near.reduce((deepest, turn) => ((off[turn] as number) < (off[deepest] as number) ? turn : deepest));
  const isSure = fit.length === near.length;
  const at = (k: number) => off[(k + RIM_RAYS) % RIM_RAYS] as number;
  // The bottom of the parabola through the squares.
  const [a, b, c] = [at(best - 1) ** 2, at(best) ** 2, at(best + 1) ** 2];
  const fine = a + c - 2 * b > 1e-12 ? (a - c) / (2 * (a + c - 2 * b)) : 0;
  const angle = ((best + fine) * 2 * Math.PI) / RIM_RAYS;
  const [cos, sin] = [Math.cos(angle), Math.sin(angle)];
  const turned = framed(
    lower.mesh,
    [
      [cos, -sin, 0],
      [sin, cos, 0],
      [0, 0, 1],
    ],
    [0, 0, 0],
  );
  return { mesh: combined([upper.mesh, turned]), isSure };
}

/** Root mean square of the outlines' distance, the other one turned by this many rays; all of it where too few can be compared. */
function apart(upper: Rim, lower: Rim, turn: number): number {
  let [sum, count] = [0, 0];
  for (let k = 0; k < RIM_RAYS; k++) {
    const by = (upper.outside[k] as number) - (lower.outside[(k - turn + RIM_RAYS) % RIM_RAYS] as number);
    if (Number.isNaN(by)) continue;
    sum += by * by;
    count++;
  }
  return count > RIM_RAYS / 2 ? Math.sqrt(sum / count) : Infinity;
}
