/** Refits one after the other, each from what the last has drawn, until one finds nothing worth having: the same refit again changes nothing. */
import { TextChanges } from "../../document/changes.js";
import type { TextEdit } from "../../document/textEdit.js";
import { pathKey } from "../../instrument/path.js";
import { CannotRekey } from "../rekey/rekeyResult.js";
import { type Asking, type JudgedRefit, judgedRefit, type Written } from "./judgedRefit.js";
import type { Move } from "./move.js";
import type { Obstacle } from "./obstacle.js";

/** Each is closer than the one before by a share that can be heard; no case needed more than three. */
const MOST_REFITS = 6;

export interface StillRefit {
  /** Of the text as it was at first. */
  readonly edits: readonly TextEdit[];
  readonly moves: readonly Move[];
  /** Whether any refit was taken. */
  readonly isTaken: boolean;
  readonly after: Written;
  obstacles(enough?: number): readonly Obstacle[];
}

/** @throws CannotRekey, Cancelled */
export function refitUntilStill(first: Written, asking: Asking): StillRefit {
  const changes = new TextChanges(first.file.text);
  let there = first;
  let moves: readonly Move[] = [];
  let isTaken = false;
  let obstacles: StillRefit["obstacles"] | undefined;
  for (let round = 0; round < MOST_REFITS; round++) {
    const goal = round === 0 ? asking.goal : { ...asking.goal, factor: 1, isRepeat: true };
    const refit = anotherRefit(there, { ...asking, goal, keepsNotes: asking.keepsNotes || round > 0 }, isTaken);
    if (refit === undefined) break;
    if (refit.isTaken) {
      changes.make(refit.edits);
      moves = movesTogether(moves, refit.moves);
      there = refit.after;
      isTaken = true;
    }
    if (refit.isTaken || obstacles === undefined) ({ obstacles } = refit);
    // In another key the search has begun from a size that another refit would not begin from.
    const isLast = !refit.isTaken && (asking.goal.factor === 1 || round > 0);
    if (isLast || refit.edits.length === 0 || asking.goal.isSpent?.()) break;
  }
  const found = obstacles;
  return { edits: changes.edits, moves, isTaken, after: there, obstacles: (enough) => found?.(enough) ?? [] };
}

/** Undefined where one was taken already and no other is found from there. */
function anotherRefit(there: Written, asking: Asking, isTaken: boolean): JudgedRefit | undefined {
  try {
    return judgedRefit(there, asking);
  } catch (error) {
    if (isTaken && error instanceof CannotRekey) return undefined;
    throw error;
  }
}

/** Dimensions moved once and again, each from where it was at first. */
export function movesTogether(first: readonly Move[], second: readonly Move[]): readonly Move[] {
  const moves = new Map(first.map((move) => [pathKey(move.path), move]));
  for (const move of second) {
    const from = moves.get(pathKey(move.path))?.from ?? move.from;
    moves.set(pathKey(move.path), { ...move, from });
  }
  return [...moves.values()].filter(({ from, to }) => from !== to);
}
