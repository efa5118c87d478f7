/** `borewright correct FILE [RECORDING]`: from a recording to the calibrated design and the next print, note by note. */
import { type Calibration, CannotCalibrate } from "../design/calibrate/calibrate.js";
import { type Calibrated, type Corrected, calibratedFile, corrected } from "../design/calibrate/correct.js";
import { fittedLines } from "../design/calibrate/wording.js";
import type { Freedom } from "../design/constraints/unknowns.js";
import { CannotRekey } from "../design/rekey/rekeyResult.js";
import type { AnalysisSettings } from "../design/settings.js";
import { signedCents } from "../design/wording.js";
import { readDesign } from "../document/read.js";
import { jsonText } from "../escape/json.js";
import { table } from "../escape/table.js";
import { centsAbove } from "../music/cents.js";
import { earlierPrints } from "./earlierPrints.js";
import { UnusableInput } from "./exitStatus.js";
import type { ReadFile } from "./files.js";
import { instrumentIn } from "./instrumentIn.js";
import { type ListenResult, listenTo, withMeasured } from "./listen.js";

export interface CorrectArguments {
  readonly recording: string | undefined;
  readonly temperature: number | undefined;
  readonly instrument: number | undefined;
  /** Design files of earlier prints. */
  readonly earlier: readonly string[];
  /** Undefined: the design is calibrated and its holes are left. */
  readonly freedom: Freedom | undefined;
}

export interface CorrectResult {
  readonly heard: ListenResult | undefined;
  readonly calibrated: Calibrated;
  readonly corrected: Corrected | undefined;
  readonly text: string;
}

/** Rejects with UnusableInput, FileTrouble. What was heard takes the place of what was measured before. */
export async function correctFile(
  read: ReadFile,
  { recording, temperature, instrument, earlier: files, freedom }: CorrectArguments,
  settings: AnalysisSettings,
): Promise<CorrectResult> {
  const index = instrumentIn(read, instrument);
  const design = read.design.documents[index]?.resolution.instrument;
  const earlier = design === undefined ? [] : earlierPrints(files, design, instrument, settings);
  const heard =
    recording === undefined
      ? undefined
      : await listenTo(
          { file: recording, raw: undefined, design: read, instrument, temperature, onNote: undefined },
          settings,
        );
  if (heard?.design?.heard.matching.doubtful)
    throw new UnusableInput(
      recording ?? "",
      "more than a third of its notes are in question: is this the design that was played?",
    );
  const text = heard?.design === undefined ? read.design.text : withMeasured(heard.design, true).text;
  const file = readDesign(text, read.design.syntax);
  try {
    const calibrated = calibratedFile(file, index, settings, { earlier });
    const result = freedom === undefined ? undefined : corrected(file, index, freedom, settings, { earlier });
    return { heard, calibrated, corrected: result, text: result?.refit.text ?? calibrated.file.text };
  } catch (error) {
    if (error instanceof CannotCalibrate || error instanceof CannotRekey)
      throw new UnusableInput(read.file, error.message);
    throw error;
  }
}

interface NoteRow {
  readonly note: string;
  readonly measuredHz: number;
  /** Off the note it is meant for, cents: as measured, as the calibrated design says, and as the next print is predicted. */
  readonly measured: number | undefined;
  readonly calibrated: number | undefined;
  readonly next: number | undefined;
}

function rowsOf({ calibrated, corrected }: CorrectResult): readonly NoteRow[] {
  const { notes } = calibrated.calibration;
  const after = corrected?.refit.after.fingerings;
  const before = corrected?.refit.before.fingerings;
  return notes.map(({ name, hz, residualCents }) => {
    const at = before?.findIndex(({ fingering }) => fingering.target?.name === name) ?? -1;
    const target = before?.[at]?.targetHz;
    return {
      note: name,
      measuredHz: hz,
      measured: target === undefined ? undefined : centsAbove(hz, target),
      calibrated: residualCents,
      next: after?.[at]?.cents,
    };
  });
}

export function correctLines(result: CorrectResult): readonly string[] {
  const { calibrated, corrected } = result;
  const { instrument } = calibrated.file.documents[0]?.resolution ?? {};
  const cents = (value: number | undefined) => (value === undefined ? "" : signedCents(value));
  const isRefit = corrected !== undefined;
  const rows = rowsOf(result).map(({ note, measuredHz, measured, calibrated: left, next }) => [
    note,
    measuredHz.toFixed(1),
    ...(isRefit ? [cents(measured)] : []),
    cents(left),
    ...(isRefit ? [cents(next)] : []),
  ]);
  const header = [
    "note",
    "measured Hz",
    ...(isRefit ? ["this print"] : []),
    "unexplained",
    ...(isRefit ? ["next print"] : []),
  ];
  return [
    ...table(
      header,
      ["left", "right", "right", "right", "right"].slice(0, header.length) as ("left" | "right")[],
      rows,
    ),
    ...(instrument === undefined ? [] : fittedLines(calibrated.calibration, instrument)),
    ...earlierLines(calibrated.calibration),
    ...(corrected === undefined ? [] : corrected.refit.remarks),
    isRefit
      ? "Cents off the note: as measured; left when the mouth was fitted; and as the next print is predicted, for the same player and air."
      : "Cents left when the mouth was fitted.",
  ];
}

function earlierLines({ earlier }: Calibration): readonly string[] {
  if (earlier === undefined) return [];
  const prints = earlier.prints === 1 ? "an earlier print" : `${earlier.prints} earlier prints`;
  return [
    `Fitted to ${earlier.notes} notes of ${prints}, too, of which ${earlier.rmsResidualCents.toFixed(1)} cents are left (root mean square).`,
  ];
}

export function correctJson(file: string, result: CorrectResult): string {
  const { calibrated, text } = result;
  return jsonText({
    file,
    fitted: calibrated.calibration.fitted.map(({ path, before, after }) => ({ path: path.join("."), before, after })),
    earlier: calibrated.calibration.earlier ?? null,
    notes: rowsOf(result).map(({ note, measuredHz, measured, calibrated: left, next }) => ({
      note,
      measuredHz,
      thisPrintCents: measured ?? null,
      unexplainedCents: left ?? null,
      nextPrintCents: next ?? null,
    })),
    text,
  });
}
