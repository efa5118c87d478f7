/** `borewright pitch FILE…`: what every fingering sounds. */

import { analyse } from "../design/predict/analyse.js";
import type { Analysis, FingeringPrediction } from "../design/predict/analysis.js";
import { type Band, type BandSource, bandsOf } from "../design/predict/band.js";
import { bandSummary, reachInWords } from "../design/predict/bandWording.js";
import type { AnalysisSettings } from "../design/settings.js";
import { breathInWords, deviationInWords, drawnFlatInWords, signedCents } from "../design/wording.js";
import type { DesignDocument } from "../document/designFile.js";
import { findingLine } from "../document/findingLine.js";
import { table } from "../escape/table.js";
import { isDescribed } from "../instrument/body.js";
import { stopsFoot } from "../instrument/fingerings.js";
import { UnusableInput } from "./exitStatus.js";
import type { ReadFile } from "./files.js";

export interface PitchReport {
  readonly file: string;
  readonly name: string | null;
  readonly key: string | null;
  /** °C */
  readonly airTemperature: number;
  /** Whether the mouth is a measured one. */
  readonly calibrated: boolean;
  readonly fingerings: readonly (FingeringReport & BandReport)[];
  readonly worstCents: number | null;
  readonly rmsCents: number | null;
}

export interface FingeringReport {
  readonly note: string | null;
  /** In ●○◐ form. */
  readonly holes: string | null;
  readonly register: number;
  readonly targetHz: number | null;
  readonly predictedHz: number | null;
  readonly cents: number | null;
}

/** How sure a note is: ± cents, and the largest source. */
export interface BandReport {
  readonly bandCents: number | null;
  /** Its two sides, which differ where the jet lifts the note. */
  readonly bandBelowCents: number | null;
  readonly bandAboveCents: number | null;
  readonly bandMostly: BandSource | null;
  /** Parts of it: what moves all notes alike, and this note against the others. */
  readonly bandTogetherCents: number | null;
  readonly bandAgainstCents: number | null;
}

/** Analyses every instrument of a file. @throws UnusableInput where one of them cannot be predicted, saying why */
export function analyseFile(read: ReadFile, settings: AnalysisSettings): readonly Analysis[] {
  return read.design.documents.map((document) => analyseOrExplain(read, document, settings));
}

/** An instrument of a file, predicted. */
export interface Predicted {
  readonly file: string;
  readonly analysis: Analysis;
  readonly bands: readonly (Band | undefined)[];
}

/** The same with how sure every note is. @throws UnusableInput where one of them cannot be predicted, saying why */
export function predictFile(read: ReadFile, settings: AnalysisSettings): readonly Predicted[] {
  return read.design.documents.map((document) => {
    const analysis = analyseOrExplain(read, document, settings);
    return { file: read.file, analysis, bands: bandsOf(document.resolution, analysis) };
  });
}

function analyseOrExplain(read: ReadFile, document: DesignDocument, settings: AnalysisSettings): Analysis {
  const analysis = analyse(document.resolution.instrument, settings);
  if (isDescribed(analysis.instrument.body)) return analysis;
  const reasons = document.findings
    .filter(({ severity }) => severity !== "hint")
    .sort((a, b) => a.span.start - b.span.start);
  const worst = reasons.filter(({ severity }) => severity === "error");
  throw new UnusableInput(
    read.file,
    "the instrument cannot be predicted yet:",
    (worst.length > 0 ? worst : reasons).map((f) => findingLine(read, f)),
  );
}

export function pitchReport({ file, analysis, bands }: Predicted): PitchReport {
  return {
    file,
    name: analysis.instrument.name ?? null,
    key: analysis.instrument.key?.name ?? null,
    airTemperature: analysis.temperature,
    calibrated: analysis.instrument.calibrated,
    fingerings: analysis.fingerings.map((prediction, i) => ({
      ...fingeringReport(prediction),
      ...bandReport(bands[i]),
    })),
    worstCents: analysis.summary?.worstCents ?? null,
    rmsCents: analysis.summary?.rmsCents ?? null,
  };
}

export function fingeringReport({ fingering, targetHz, predictedHz, cents }: FingeringPrediction): FingeringReport {
  return {
    note: fingering.target?.name ?? null,
    holes: fingering.pattern ?? null,
    register: fingering.register,
    targetHz: targetHz ?? null,
    predictedHz: predictedHz ?? null,
    cents: cents ?? null,
  };
}

function bandReport(band: Band | undefined): BandReport {
  return {
    bandCents: band?.cents ?? null,
    bandBelowCents: band?.reach.below ?? null,
    bandAboveCents: band?.reach.above ?? null,
    bandMostly: band?.mostly ?? null,
    bandTogetherCents: band?.together ?? null,
    bandAgainstCents: band?.against ?? null,
  };
}

/** The table a maker reads: one line per fingering, and the summary. @param withBands a column for how sure each note is */
export function pitchTable({ file, analysis, bands }: Predicted, withBands = false): readonly string[] {
  const { instrument, summary } = analysis;
  const title = [
    instrument.name ?? file,
    instrument.key && `in ${instrument.key.name}`,
    `air ${analysis.temperature} °C`,
    instrument.calibrated && "calibrated",
  ];
  const body = table(
    ["note", "holes", "register", "target Hz", "predicted Hz", "cents", ...(withBands ? ["±", "mostly"] : []), ""],
    ["left", "left", "right", "right", "right", "right", ...(withBands ? (["right", "left"] as const) : []), "left"],
    analysis.fingerings.map((prediction, i) => {
      const cells = fingeringRow(prediction, analysis.tolerance, instrument.holes.length);
      const band = bands[i];
      const sure = withBands
        ? [band === undefined ? "–" : reachInWords(band.reach).replace("±", ""), band?.mostly ?? ""]
        : [];
      return [...cells.slice(0, -1), ...sure, ...cells.slice(-1)];
    }),
  );
  const close =
    summary === undefined
      ? "No fingering could be predicted."
      : `Worst ${deviationInWords(summary.worstCents)}, rms ${summary.rmsCents.toFixed(1)} cents; ${summary.outOfTune} of ${summary.count} farther than ±${analysis.tolerance} cents.`;
  return [
    title.filter(Boolean).join(" · "),
    ...body,
    close,
    bandSummary(bands) ?? "",
    drawnFlatInWords(instrument),
    breathInWords(instrument),
  ].filter((line) => line !== "");
}

function fingeringRow(prediction: FingeringPrediction, tolerance: number, holes: number): readonly string[] {
  const { fingering, targetHz, predictedHz, cents } = prediction;
  return [
    fingering.target?.name ?? "?",
    `${fingering.pattern ?? "?"}${stopsFoot(fingering, holes) ? ", foot stopped" : ""}`,
    String(fingering.register),
    targetHz?.toFixed(1) ?? "–",
    predictedHz?.toFixed(1) ?? "–",
    cents === undefined ? "–" : signedCents(cents),
    cents === undefined ? "no such register" : verdict(cents, tolerance),
  ];
}

function verdict(cents: number, tolerance: number): string {
  if (Math.abs(cents) <= tolerance) return "";
  return cents < 0 ? "flat" : "sharp";
}
