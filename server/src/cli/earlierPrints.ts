/** Designs of earlier prints with their measured notes, for a calibration by all of them. */
import type { PrintedDesign } from "../design/calibrate/calibrate.js";
import { analyse } from "../design/predict/analyse.js";
import type { AnalysisSettings } from "../design/settings.js";
import type { Instrument } from "../instrument/model.js";
import { UnusableInput } from "./exitStatus.js";
import { type ReadFile, readDesignFile } from "./files.js";
import { instrumentIn } from "./instrumentIn.js";

/**
 * @param number which instrument of each file, as of the print that is corrected
 * @throws UnusableInput, FileTrouble
 */
export function earlierPrints(
  files: readonly string[],
  instrument: Instrument,
  number: number | undefined,
  settings: AnalysisSettings,
): readonly PrintedDesign[] {
  return files.map((file) => printIn(readDesignFile(file), instrument, number, settings));
}

function printIn(
  read: ReadFile,
  { family }: Instrument,
  number: number | undefined,
  settings: AnalysisSettings,
): PrintedDesign {
  const resolution = read.design.documents[instrumentIn(read, number)]?.resolution;
  if (resolution === undefined || resolution.instrument.measured.length === 0)
    throw new UnusableInput(
      read.file,
      "has no measured notes that count, so that it tells nothing of an earlier print: write them into it with borewright listen --design FILE --write before it is corrected",
    );
  if (resolution.instrument.family !== family)
    throw new UnusableInput(
      read.file,
      `is of another family (${resolution.instrument.family}, not ${family}): leave it out`,
    );
  return { resolution, analysis: analyse(resolution.instrument, settings) };
}
