/** A recording, heard against a design: what is to be written under `measured`. */
import type { Analysis } from "../design/predict/analysis.js";
import type { DesignDocument } from "../document/designFile.js";
import { listen } from "../sound/listen.js";
import { type HeardDesign, hearDesign, rangeOf } from "./heardDesign.js";
import { type MeasuredEntry, measuredEntries } from "./measuredEdits.js";

export interface HeardRecording {
  readonly heard: HeardDesign;
  readonly entries: readonly MeasuredEntry[];
}

/** Rejects with NotReadable, and as `pieces` does; undefined where the design predicts nothing. @param temperature °C, if it was not the design's */
export async function hearRecording(
  pieces: AsyncIterable<Uint8Array>,
  document: DesignDocument,
  analysis: Analysis,
  temperature: number | undefined,
): Promise<HeardRecording | undefined> {
  const range = rangeOf(analysis);
  if (range === undefined) return undefined;
  const { notes } = await listen(pieces, { raw: undefined, range, onNote: undefined });
  const heard = hearDesign(notes, document, analysis);
  return { heard, entries: measuredEntries(heard.pooled.measurements, analysis.fingerings, temperature) };
}
