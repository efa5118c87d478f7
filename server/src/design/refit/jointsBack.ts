/** Joints that a solution has moved though nothing asked for it. */
import type { Limit } from "../constraints/limit.js";
import type { Unknown } from "../constraints/unknowns.js";
import { keeps } from "./quadraticStep.js";

export interface Drawing {
  readonly unknowns: readonly Unknown[];
  /** Dimensions before the refit, mm. */
  readonly present: readonly number[];
  /** Stations with a joint whose place does nothing for the notes. */
  readonly staying: ReadonlySet<number>;
  /** The limits with holes and stations at a point. */
  readonly limitsAt: (x: readonly number[]) => readonly Limit[];
}

/** The dimensions `drawn`, mm, with each joint back at its place that keeps all limits there. */
export function withJointsBack(drawn: readonly number[], drawing: Drawing): readonly number[] {
  // One may be in the way of another's return.
  return [...drawing.staying].reduce((x) => onceBack(x, drawing), drawn);
}

function onceBack(drawn: readonly number[], { unknowns, present, staying, limitsAt }: Drawing): readonly number[] {
  return unknowns.reduce((x, { kind, index }, i) => {
    if (kind !== "station-place" || !staying.has(index) || x[i] === present[i]) return x;
    const back = x.map((value, j) => (j === i ? (present[i] ?? value) : value));
    return limitsAt(back).every((limit) => keeps(limit, back)) ? back : x;
  }, drawn);
}
