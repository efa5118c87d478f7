/** A recording in a file, heard against a design: what is to be written under `measured`. */
import type { Analysis } from "../design/predict/analysis.js";
import type { DesignDocument } from "../document/designFile.js";
import { readChunks } from "../files/readChunks.js";
import { listen } from "../sound/listen.js";
import { type HeardDesign, hearDesign, rangeOf } from "./heardDesign.js";
import { type MeasuredEntry, measuredEntries } from "./measuredEdits.js";

export interface HeardRecording {
  readonly heard: HeardDesign;
  readonly entries: readonly MeasuredEntry[];
}

/** Rejects with NotReadable, FileTrouble; undefined where the design predicts nothing. @param temperature °C, if it was not the design's */
export async function hearRecording(
  file: string,
  document: DesignDocument,
  analysis: Analysis,
  temperature: number | undefined,
): Promise<HeardRecording | undefined> {
  const range = rangeOf(analysis);
  if (range === undefined) return undefined;
  const { notes } = await listen(readChunks(file), { raw: undefined, range, onNote: undefined });
  const heard = hearDesign(notes, document, analysis);
  return { heard, entries: measuredEntries(heard.pooled.measurements, analysis.fingerings, temperature) };
}
