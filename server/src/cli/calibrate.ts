/** `borewright calibrate FILE`: the mouth fitted to the measured notes. */

import { type CalibrateOptions, type Calibration, CannotCalibrate, calibrate } from "../design/calibrate/calibrate.js";
import { calibrationEdits } from "../design/calibrate/calibrationEdits.js";
import { closingLines, fittedLines } from "../design/calibrate/wording.js";
import { analyse } from "../design/predict/analyse.js";
import type { AnalysisSettings } from "../design/settings.js";
import { signedCents } from "../design/wording.js";
import { checkedEdits } from "../document/checkedEdits.js";
import { applyEdits } from "../document/edits.js";
import { findingLine } from "../document/findingLine.js";
import type { TextEdit } from "../document/textEdit.js";
import { jsonText } from "../escape/json.js";
import { spaced, table } from "../escape/table.js";
import type { Instrument } from "../instrument/model.js";
import { pathText } from "../instrument/path.js";
import { UnusableInput } from "./exitStatus.js";
import type { ReadFile } from "./files.js";

export interface CalibratedFile {
  readonly instruments: readonly { readonly instrument: Instrument; readonly calibration: Calibration }[];
  /** The file with everything fitted written into it. */
  readonly text: string;
}

/** Calibrates every instrument of a file that has measured notes. @throws UnusableInput where none has, or one cannot be */
export function calibrateFile(
  read: ReadFile,
  settings: AnalysisSettings,
  options: CalibrateOptions = {},
): CalibratedFile {
  const edits: TextEdit[] = [];
  const { documents } = read.design;
  const wanted = documents.filter(({ resolution }) => resolution.instrument.measured.length > 0);
  const instruments = (wanted.length > 0 ? wanted : documents.slice(0, 1)).map((document) => {
    const analysis = analyse(document.resolution.instrument, settings);
    try {
      const calibration = calibrate(document.resolution, analysis, options);
      const proposed = calibrationEdits(document, calibration);
      const checked = checkedEdits(read.design, document.index, proposed);
      if (checked === undefined) throw new UnusableInput(read.file, NOT_WRITTEN);
      edits.push(...checked.edits);
      return { instrument: analysis.instrument, calibration };
    } catch (error) {
      if (error instanceof CannotCalibrate) throw new UnusableInput(read.file, error.message);
      throw error;
    }
  });
  return { instruments, text: applyEdits(read.design.text, edits) };
}

const NOT_WRITTEN =
  "the mouth is written in a way that does not let it be changed without changing other values (aliases, merge keys or tags, say): write it out";

/** Findings of measured notes that could not be used, one line each: a calibration without them is not the intended one. */
export function unusedNotes(read: ReadFile): readonly string[] {
  return read.design.documents.flatMap(({ findings }) =>
    findings
      .filter(({ path, severity }) => path[0] === "measured" && severity === "error")
      .map((finding) => findingLine(read, finding)),
  );
}

/** One line per note, what was fitted, what is left. */
export function calibrationTable({ instruments }: CalibratedFile): readonly string[] {
  return spaced(
    instruments.map(({ instrument, calibration }) => {
      const rows = calibration.notes.map(({ name, hz, beforeCents, residualCents }) => [
        name,
        hz.toFixed(1),
        signedCents(beforeCents),
        signedCents(residualCents),
      ]);
      return [
        ...(instrument.name === undefined ? [] : [instrument.name]),
        ...table(["note", "measured Hz", "cents before", "cents left"], ["left", "right", "right", "right"], rows),
        ...fittedLines(calibration, instrument),
        ...closingLines(calibration, instrument),
      ];
    }),
  );
}

/** The result of fitting the air, too. */
function withAirJson({ fitted, rmsResidualCents }: Calibration) {
  return {
    fitted: fitted.map(({ path, before, after }) => ({ path: pathText(path), before, after })),
    rmsResidualCents,
  };
}

export function calibrationJson(file: string, { instruments, text }: CalibratedFile): string {
  const reports = instruments.map(({ instrument, calibration }) => ({
    file,
    name: instrument.name ?? null,
    fitted: calibration.fitted.map(({ path, before, after }) => ({ path: pathText(path), before, after })),
    notes: calibration.notes.map(({ name, hz, beforeCents, residualCents }) => ({
      note: name,
      hz,
      beforeCents,
      residualCents,
    })),
    unused: calibration.unused.map(pathText),
    rmsBeforeCents: calibration.rmsBeforeCents,
    rmsResidualCents: calibration.rmsResidualCents,
    withAir: calibration.withAir === undefined ? null : withAirJson(calibration.withAir),
  }));
  return jsonText({ calibrations: reports, text });
}
