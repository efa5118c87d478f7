/** The notes of an instrument whose dimensions are being solved: how far off each is, and how it follows every unknown. */
import type { Column } from "../../acoustics/column.js";
import { followedFrequencies } from "../../acoustics/follow.js";
import { type Query, soundingFrequencies } from "../../acoustics/resonance.js";
import { type Knob, LENGTH_STEP, sensitivities } from "../../acoustics/sensitivity.js";
import { centsAbove, ratioOfCents } from "../../music/cents.js";
import { type Unknown, valueIn, withValue } from "../constraints/unknowns.js";
import type { AnalyseOptions } from "../predict/analyse.js";
import type { Analysis } from "../predict/analysis.js";
import { orNone } from "../predict/orNone.js";
import { tunableNotesOf } from "../predict/tunableNotes.js";
import { residualsAt } from "./linear.js";

/** The notes at one point. Arrays by fingering that counts, in the design's order. */
export interface Notes {
  readonly column: Column;
  readonly frequencies: readonly number[];
  /** Cents above the targets. */
  readonly cents: readonly number[];
}

/** A point that was asked for, mm by unknown, and its notes. */
interface Known {
  readonly x: readonly number[];
  readonly notes: Notes;
}

export interface TunerRequest {
  readonly analysis: Analysis;
  readonly column: Column;
  readonly unknowns: readonly Unknown[];
  /** Hz, one for each fingering of the analysis; undefined ones do not count. */
  readonly targets: readonly (number | undefined)[];
}

const MM = 1e-3;
/** A search comes back to where it began, and several begin at the same point. */
const MOST_KNOWN = 64;

/** Points are millimetres of the printed object, by unknown. All methods throw Cancelled when told to stop. */
export class Tuner {
  /** Index of each fingering that counts. */
  readonly tunable: readonly number[];
  private readonly queries: readonly Query[];
  private readonly wanted: readonly number[];
  /** Points asked for lately, the latest last. */
  private readonly known: Known[] = [];

  /** One step ends where the next begins. */
  private readonly slopesOf = new WeakMap<Notes, readonly (readonly number[])[]>();

  constructor(
    private readonly request: TunerRequest,
    private readonly options: AnalyseOptions,
  ) {
    const tunable = tunableNotesOf(request.analysis, request.targets);
    this.tunable = tunable.map(({ query }) => query.index);
    this.queries = sharingCovers(tunable.map(({ query }) => query));
    this.wanted = tunable.map(({ target }) => target);
    this.knowAnalysed();
  }

  /** What the analysis has found need not be scanned again. */
  private knowAnalysed(): void {
    const { analysis, column, unknowns } = this.request;
    const x = unknowns.map((unknown) => valueIn(unknown, column) / MM);
    const frequencies = this.tunable.flatMap((index) => analysis.fingerings[index]?.predictedHz ?? []);
    this.notes(x, column, frequencies);
  }

  /**
   * The notes at a point, followed from the nearest of those found lately where that is sure; undefined where one has no resonance
   * or the column is not valid. Of a path of followed points only the end needs to be `scanned`.
   */
  at(x: readonly number[]): Notes | undefined {
    const near = this.nearest(x);
    if (near === undefined) return this.scanned(x);
    if (near.distance === 0) return near.notes;
    const column = this.columnAt(x);
    const expected = this.expected(near, x);
    const frequencies = orNone(() =>
      followedFrequencies(column, this.request.analysis.air, this.queries, expected, this.options),
    );
    return frequencies === undefined ? this.scanned(x) : this.notes(x, column, frequencies);
  }

  /** Where the notes lie at `x` by their slopes at a point nearby, where these are known; Hz. */
  private expected({ x: from, notes }: Known, x: readonly number[]): readonly number[] {
    const slopes = this.slopesOf.get(notes);
    if (slopes === undefined) return notes.frequencies;
    const here = notes.frequencies.map(() => 0);
    const rises = residualsAt(here, slopes, from, x);
    return notes.frequencies.map((hz, note) => hz * ratioOfCents(rises[note] ?? 0));
  }

  /** The notes at a point with registers counted from the bottom; undefined as above. */
  scanned(x: readonly number[]): Notes | undefined {
    const column = this.columnAt(x);
    const found = orNone(() =>
      soundingFrequencies(column, this.request.analysis.air, this.queries, this.options),
    )?.flatMap((sounding) => sounding?.frequency ?? []);
    return found === undefined || found.length < this.queries.length ? undefined : this.notes(x, column, found);
  }

  /** Follows from `x` alone from now on, with registers counted from the bottom there. */
  restart(x: readonly number[]): void {
    this.known.length = 0;
    this.scanned(x);
  }

  /** Not only the latest: a trial that was given up may have led to other registers. */
  private nearest(x: readonly number[]): (Known & { readonly distance: number }) | undefined {
    const distances = this.known.map(({ x: other, notes }) => {
      const distance = x.reduce((sum, value, i) => sum + (value - (other[i] ?? Number.NaN)) ** 2, 0);
      return { x: other, notes, distance };
    });
    return distances.reduce<(typeof distances)[number] | undefined>(
      (best, each) => (best !== undefined && best.distance < each.distance ? best : each),
      undefined,
    );
  }

  /** Cents per millimetre of each unknown, `[note][unknown]`. */
  slopes(notes: Notes): readonly (readonly number[])[] {
    const known = this.slopesOf.get(notes);
    if (known !== undefined) return known;
    const found = this.slopesAt(notes);
    this.slopesOf.set(notes, found);
    return found;
  }

  private slopesAt({ column, frequencies }: Notes): readonly (readonly number[])[] {
    const { unknowns, analysis } = this.request;
    const knobs = unknowns.map((unknown): Knob => {
      const value = valueIn(unknown, column);
      return {
        step: LENGTH_STEP,
        change: (step) => ({ column: withValue(column, unknown, value + step), air: analysis.air }),
      };
    });
    const slopes = sensitivities(column, analysis.air, this.queries, frequencies, knobs, this.options);
    return slopes.map((row) => row.map((cents) => cents * MM));
  }

  columnAt(x: readonly number[]): Column {
    const { column, unknowns } = this.request;
    return unknowns.reduce((changed, unknown, i) => withValue(changed, unknown, (x[i] ?? 0) * MM), column);
  }

  private notes(x: readonly number[], column: Column, frequencies: readonly number[]): Notes {
    const cents = frequencies.map((hz, i) => centsAbove(hz, this.wanted[i] ?? hz));
    const notes = { column, frequencies, cents };
    this.known.push({ x, notes });
    if (this.known.length > MOST_KNOWN) this.known.shift();
    return notes;
  }
}

/** Registers of one fingering with one list of covers: what it makes of a column is then worked out once. */
function sharingCovers(queries: readonly Query[]): readonly Query[] {
  const lists = new Map<string, Query["covers"]>();
  return queries.map((query) => {
    const key = query.covers.join();
    const covers = lists.get(key) ?? query.covers;
    lists.set(key, covers);
    return { ...query, covers };
  });
}
