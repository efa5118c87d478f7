/** What a maker should know of an instrument that has grown or shrunk as a whole. */
import type { Column } from "../acoustics/column.js";
import type { DesignDocument } from "../document/designFile.js";
import { nodeAt } from "../document/tree.js";
import type { Analysis } from "./analysis.js";

/** Smaller changes of size are not worth a word. */
const NOTICEABLE = 0.02;

export function growthRemarks(before: Analysis, after: Analysis, document: DesignDocument): readonly string[] {
  const [old, now] = [before.instrument.column, after.instrument.column];
  if (old === undefined || now === undefined) return [];
  const remarks: string[] = [];
  const growth = lengthOf(now) / lengthOf(old);
  if (Math.abs(growth - 1) > NOTICEABLE) {
    const changes = [
      `wall ${change(old.wall, now.wall)}`,
      ...widest(old, now),
      ...gaps(old, now),
      `length ${change(lengthOf(old), lengthOf(now))}`,
    ];
    remarks.push(`Everything ${growth > 1 ? "grows" : "shrinks"} alike: ${changes.join(", ")}.`);
  }
  if (nodeAt(document.root, ["measured"]) !== undefined)
    remarks.push("The `measured` notes belong to the instrument as it was; measure again after printing.");
  return remarks;
}

function widest(old: Column, now: Column): string[] {
  const diameter = (column: Column) => 2 * Math.max(...column.holes.map(({ radius }) => radius));
  return old.holes.length === 0 ? [] : [`widest hole ${change(diameter(old), diameter(now))}`];
}

function gaps(old: Column, now: Column): string[] {
  const gap = ({ holes }: Column) => Math.max(...holes.slice(1).map(({ x }, i) => x - (holes[i]?.x ?? x)));
  return old.holes.length < 2 ? [] : [`widest gap between holes ${change(gap(old), gap(now))}`];
}

function lengthOf({ bore }: Column): number {
  return (bore.at(-1)?.x ?? 0) - Math.min(0, bore[0]?.x ?? 0);
}

/** From metres to millimetres in words, printed size. */
function change(from: number, to: number): string {
  return `${(1000 * from).toFixed(1)} → ${(1000 * to).toFixed(1)} mm`;
}
