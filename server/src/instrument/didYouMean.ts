/** Finds the name that was most likely meant. */
import { t } from "../words/translation.js";

/**
 * Letters compared with letters for one design, at most. Looking for what was meant compares a name with every other: of a file
 * full of faults only the first few are worth it. Enough for twenty names among hundreds.
 */
const MOST_WORK = 2_000_000;
/** The cost of skipping a candidate, in the same measure. */
const A_GLANCE = 16;

/** Looks for what was meant, name after name, while it is worth the cost. */
export class Suggestions {
  private left = MOST_WORK;

  /** The nearest candidate, where a typing error explains the difference; else undefined. */
  meant(written: string, candidates: Iterable<string>): string | undefined {
    if (this.left <= 0) return undefined;
    const name = written.toLowerCase();
    const allowed = Math.max(1, Math.floor(name.length / 3));
    let best: string | undefined;
    let bestDistance = allowed + 1;
    for (const candidate of candidates) {
      this.left -= A_GLANCE;
      if (candidate !== written && Math.abs(candidate.length - name.length) < bestDistance) {
        this.left -= Math.min(name.length, LONGEST) * Math.min(candidate.length, LONGEST);
        const distance = editDistance(name, candidate.toLowerCase());
        if (distance < bestDistance) [best, bestDistance] = [candidate, distance];
      }
      if (this.left <= 0) break;
    }
    return best;
  }

  /** ` Did you mean …?` with a leading space, or nothing. */
  inWords(written: string, candidates: Iterable<string>): string {
    return didYouMean(this.meant(written, candidates));
  }
}

/** The same of what was found. */
export function didYouMean(meant: string | undefined): string {
  return meant === undefined ? "" : t` Did you mean \`${meant}\`?`;
}

/** Longest name compared: longer ones are not typing errors, and the comparison is quadratic. */
const LONGEST = 64;

/** One more row than there are letters, three in turn: made once, since a file full of faults compares thousands of names. */
const ROWS = [0, 1, 2].map(() => new Uint8Array(LONGEST + 1));

const at = (row: Uint8Array, i: number): number => row[i] ?? 0;

/** Least number of letters to insert, delete, replace or swap with a neighbour (optimal string alignment distance). */
function editDistance(a: string, b: string): number {
  if (a.length > LONGEST || b.length > LONGEST) return Number.POSITIVE_INFINITY;
  let [older, old, row] = ROWS as [Uint8Array, Uint8Array, Uint8Array];
  for (let j = 0; j <= b.length; j++) old[j] = j;
  for (let i = 1; i <= a.length; i++) {
    row[0] = i;
    for (let j = 1; j <= b.length; j++) {
      const cost = a.charCodeAt(i - 1) === b.charCodeAt(j - 1) ? 0 : 1;
      let least = Math.min(at(old, j) + 1, at(row, j - 1) + 1, at(old, j - 1) + cost);
      if (i > 1 && j > 1 && a[i - 1] === b[j - 2] && a[i - 2] === b[j - 1])
        least = Math.min(least, at(older, j - 2) + 1);
      row[j] = least;
    }
    [older, old, row] = [old, row, older];
  }
  return at(old, b.length);
}
