/** Where the search for a refit's dimensions begins. */
import type { Column } from "../../acoustics/column.js";
import { centsAbove } from "../../music/cents.js";
import { type Unknown, valueIn } from "../constraints/unknowns.js";
import type { Analysis } from "../predict/analysis.js";
import { governingHole } from "../predict/governing.js";
import { tunableNotesOf } from "../predict/tunableNotes.js";

/** Millimetres, by unknown. */
export type Start = readonly number[];

interface StartsRequest {
  readonly unknowns: readonly Unknown[];
  readonly column: Column;
  readonly analysis: Analysis;
  /** Hz, by fingering. */
  readonly targets: readonly (number | undefined)[];
  /** How many times as long the instrument will be, roughly. */
  readonly factor: number;
  /** Stations that would rather stay where they are. */
  readonly staying: ReadonlySet<number>;
}

/** From this far off the other notes, slopes do not lead to where a note is right. Cents. */
const FAR_OFF = 50;

/**
 * Places grown with the key and sizes as they are; everything grown; and places by their own notes, first of all where the design is far
 * out of tune in its own key.
 */
export function startsOf(request: StartsRequest): readonly [Start, ...Start[]] {
  const { unknowns, column, analysis, targets, factor, staying } = request;
  const withJoints = (start: Start): Start =>
    start.map((value, i) => {
      const unknown = unknowns[i];
      const stays = unknown?.kind === "station-place" && staying.has(unknown.index);
      return stays ? 1e3 * valueIn(unknown, column) : value;
    });
  const placed = withJoints(placedByNotes(unknowns, column, analysis, targets));
  const moved = withJoints(grownBy(unknowns, column, factor, 1));
  const grown = factor === 1 ? [] : [withJoints(grownBy(unknowns, column, factor, factor))];
  const isFarOff = tunableNotesOf(analysis, targets).some(({ query: { index }, target }) => {
    const predicted = analysis.fingerings[index]?.predictedHz ?? target;
    return Math.abs(centsAbove(predicted / factor, target)) > FAR_OFF;
  });
  return isFarOff ? [placed, moved, ...grown] : [moved, ...grown, placed];
}

/** Places and sizes as they are, each times a factor of its own. */
function grownBy(unknowns: readonly Unknown[], column: Column, places: number, sizes: number): Start {
  return unknowns.map((unknown) => 1e3 * valueIn(unknown, column) * (isPlace(unknown) ? places : sizes));
}

/**
 * Sizes as they are, and each hole and the foot about where their own lowest notes need them: slopes at the present places do not
 * reach that far. Half a wavelength lies between the mouth and the place that decides a note, a quarter above a stopped foot, and what
 * the ends add to it stays. What decides no note moves with its neighbours.
 */
export function placedByNotes(
  unknowns: readonly Unknown[],
  column: Column,
  analysis: Analysis,
  targets: readonly (number | undefined)[],
): Start {
  const marks = marksOf(column, analysis, targets);
  return unknowns.map((unknown) => {
    const value = valueIn(unknown, column);
    return 1e3 * (isPlace(unknown) ? wantedAt(marks, value) : value);
  });
}

function isPlace({ kind }: Unknown): boolean {
  return kind === "hole-place" || kind === "station-place";
}

/** A place along the bore and where it is wanted, m from the mouth. */
interface Mark {
  readonly x: number;
  readonly wanted: number;
}

/** From the mouth on; of several fingerings of one hole that of the lowest register goes, then that with most holes open. */
function marksOf(column: Column, analysis: Analysis, targets: readonly (number | undefined)[]): readonly Mark[] {
  const chosen = new Map<
    number | undefined,
    { readonly register: number; readonly open: number; readonly mark: Mark }
  >();
  for (const { query, target } of tunableNotesOf(analysis, targets)) {
    const { covers, register, index } = query;
    const hole = governingHole(covers);
    const open = covers.filter((cover) => cover < 1).length;
    const known = chosen.get(hole);
    if (known !== undefined && (known.register < register || (known.register === register && known.open >= open)))
      continue;
    const x = (hole === undefined ? column.bore.at(-1) : column.holes[hole])?.x;
    const predicted = analysis.fingerings[index]?.predictedHz;
    if (x === undefined || predicted === undefined) continue;
    const waves = hole === undefined && column.foot === "stopped" ? (2 * register - 1) / 4 : register / 2;
    const moved = waves * analysis.air.soundSpeed * (1 / target - 1 / predicted);
    chosen.set(hole, { register, open, mark: { x, wanted: Math.max(0, x + moved) } });
  }
  return [{ x: 0, wanted: 0 }, ...[...chosen.values()].map(({ mark }) => mark).sort((a, b) => a.x - b.x)];
}

/** Between two marks in proportion, beyond the last as that one. */
function wantedAt(marks: readonly Mark[], x: number): number {
  const next = marks.findIndex((mark) => mark.x >= x);
  const [above, below] = [marks[next < 0 ? marks.length - 1 : next - 1], marks[next]];
  if (x <= 0 || above === undefined) return x;
  if (below === undefined) return above.x > 0 ? (x * above.wanted) / above.x : x;
  const share = (x - above.x) / (below.x - above.x);
  return above.wanted + share * (below.wanted - above.wanted);
}
