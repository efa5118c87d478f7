/** Writes what was heard under `measured` of a design, in place. */

import type { FingeringPrediction } from "../design/predict/analysis.js";
import { appendItems } from "../document/appendItems.js";
import type { DesignDocument } from "../document/designFile.js";
import { setNumber } from "../document/edits.js";
import type { TextEdit } from "../document/textEdit.js";
import { nodeAt } from "../document/tree.js";
import type { MeasuredNote } from "../instrument/model.js";
import { centsAbove, ratioOfCents } from "../music/cents.js";
import { tunerZero } from "../music/tuning.js";
import type { Measurement } from "./pooled.js";

export interface MeasuredEntry {
  readonly note: string;
  readonly hz: number;
  /** Cents. */
  readonly uncertainty: number;
  /** °C of the air; undefined where it was the design's. */
  readonly temperature: number | undefined;
  /** The fingering, where the design has the note more than once. */
  readonly holes: string | undefined;
}

/** A tenth of a cent is 0.006 % of a frequency: this many decimals. */
const HZ_DECIMALS = 2;

/** What is written for each measurement whose fingering has a note. */
export function measuredEntries(
  measurements: readonly Measurement[],
  fingerings: readonly FingeringPrediction[],
  temperature: number | undefined,
): readonly MeasuredEntry[] {
  const targetOf = (index: number) => fingerings[index]?.fingering.target;
  return measurements.flatMap(({ fingering, cents, uncertainty }) => {
    const target = targetOf(fingering);
    if (target === undefined) return [];
    const twice = fingerings.filter((_, i) => targetOf(i)?.midi === target.midi).length > 1;
    return [
      {
        note: target.name,
        hz: Number((440 * ratioOfCents(cents)).toFixed(HZ_DECIMALS)),
        uncertainty: Number(uncertainty.toFixed(1)),
        temperature,
        holes: twice ? fingerings[fingering]?.fingering.pattern : undefined,
      },
    ];
  });
}

export interface MeasuredEdits {
  readonly edits: readonly TextEdit[];
  /** Notes that the design has a measured value of already, which stays. */
  readonly kept: readonly string[];
}

/** @param replace whether values that the design has already are overwritten */
export function measuredEdits(
  document: DesignDocument,
  entries: readonly MeasuredEntry[],
  measured: readonly MeasuredNote[],
  replace: boolean,
): MeasuredEdits {
  const old = (entry: MeasuredEntry) =>
    measured.find(
      ({ note, covers }) => note.name === entry.note && (entry.holes === undefined || covers !== undefined),
    );
  const added = entries.filter((entry) => old(entry) === undefined);
  const known = entries.filter((entry) => old(entry) !== undefined);
  const rewritten = replace ? known.flatMap((entry) => rewrite(document, old(entry) as MeasuredNote, entry)) : [];
  const items = added.map((entry) => written(entry, document.syntax === "json"));
  return {
    edits: [...rewritten, ...appendItems(document, ["measured"], items)],
    kept: replace ? [] : known.map(({ note }) => note),
  };
}

function rewrite(document: DesignDocument, { path, note }: MeasuredNote, entry: MeasuredEntry): readonly TextEdit[] {
  // Where it was written in a tuner's cents, it stays so: both would say the same twice.
  const isInCents = nodeAt(document.root, [...path, "cents"]) !== undefined;
  const zero = tunerZero(note, document.resolution.instrument.tuning.pitchStandard);
  const numbers: readonly (readonly [string, number | undefined, number])[] = [
    isInCents ? ["cents", centsAbove(entry.hz, zero), 1] : ["hz", entry.hz, HZ_DECIMALS],
    ["temperature", entry.temperature, 1],
    ["uncertainty", entry.uncertainty, 1],
  ];
  return numbers.flatMap(([key, value, decimals]) =>
    value === undefined ? [] : setNumber(document, [...path, key], value, decimals),
  );
}

function written({ note, hz, temperature, uncertainty, holes }: MeasuredEntry, json: boolean): string {
  const text = (value: string) => (json ? JSON.stringify(value) : value);
  const pairs = Object.entries({
    note: text(note),
    hz,
    temperature,
    uncertainty,
    holes: holes === undefined ? undefined : JSON.stringify(holes),
  });
  const stated = pairs.filter(([, value]) => value !== undefined);
  return `{ ${stated.map(([key, value]) => `${json ? JSON.stringify(key) : key}: ${value}`).join(", ")} }`;
}
