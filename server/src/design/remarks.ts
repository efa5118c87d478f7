/** What a maker should know of an instrument that has grown or shrunk as a whole. */
import type { Column } from "../acoustics/column.js";
import type { DesignDocument } from "../document/designFile.js";
import { nodeAt } from "../document/tree.js";
import type { Analysis } from "./analysis.js";
import { longestOf } from "./body.js";

/** Smaller changes of size are not worth a word. */
const NOTICEABLE = 0.02;

export function growthRemarks(before: Analysis, after: Analysis, document: DesignDocument): readonly string[] {
  const remarks: string[] = [];
  const [old, now] = [before.instrument, after.instrument];
  const growth = longestOf(now) / longestOf(old);
  if (Math.abs(growth - 1) > NOTICEABLE) {
    const lengths = `${old.pipes === undefined ? "length" : "longest pipe"} ${change(longestOf(old), longestOf(now))}`;
    const changes = [
      ...columnChanges(old.column, now.column),
      ...vesselChanges(old, now),
      ...pipeChanges(old, now),
      lengths,
    ];
    remarks.push(`Everything ${growth > 1 ? "grows" : "shrinks"} alike: ${changes.join(", ")}.`);
  }
  if (nodeAt(document.root, ["measured"]) !== undefined)
    remarks.push("The `measured` notes belong to the instrument as it was; measure again after printing.");
  return remarks;
}

function columnChanges(old: Column | undefined, now: Column | undefined): string[] {
  if (old === undefined || now === undefined) return [];
  return [`wall ${change(old.wall, now.wall)}`, ...widest(old, now), ...gaps(old, now)];
}

function vesselChanges(old: Analysis["instrument"], now: Analysis["instrument"]): string[] {
  const [before, after] = [old.vessel?.shape, now.vessel?.shape];
  if (before === undefined || after === undefined) return [];
  return [`wall ${change(before.wall, after.wall)}`, ...widest(before, after)];
}

function pipeChanges(old: Analysis["instrument"], now: Analysis["instrument"]): string[] {
  const width = ({ pipes = [] }: Analysis["instrument"]) =>
    2 * Math.max(...pipes.flatMap(({ column }) => column?.bore.map(({ radius }) => radius) ?? []));
  return old.pipes === undefined || !(width(old) > 0) ? [] : [`widest pipe ${change(width(old), width(now))}`];
}

type WithHoles = { readonly holes: readonly { readonly radius: number }[] };

function widest(old: WithHoles, now: WithHoles): string[] {
  const diameter = ({ holes }: WithHoles) => 2 * Math.max(...holes.map(({ radius }) => radius));
  return old.holes.length === 0 ? [] : [`widest hole ${change(diameter(old), diameter(now))}`];
}

function gaps(old: Column, now: Column): string[] {
  const gap = ({ holes }: Column) => Math.max(...holes.slice(1).map(({ x }, i) => x - (holes[i]?.x ?? x)));
  return old.holes.length < 2 ? [] : [`widest gap between holes ${change(gap(old), gap(now))}`];
}

/** From metres to millimetres in words, printed size. */
function change(from: number, to: number): string {
  return `${(1000 * from).toFixed(1)} → ${(1000 * to).toFixed(1)} mm`;
}
