/** `borewright pitch FILE…`: what every fingering sounds. */
import { analyse } from "../design/analyse.js";
import type { Analysis, FingeringPrediction } from "../design/analysis.js";
import type { AnalysisSettings } from "../design/settings.js";
import { deviationInWords, signedCents } from "../design/wording.js";
import type { DesignDocument } from "../document/designFile.js";
import { UnusableInput } from "./exitStatus.js";
import { findingLine, type ReadFile } from "./files.js";
import { table } from "./table.js";

export interface PitchReport {
  readonly file: string;
  readonly name: string | null;
  readonly key: string | null;
  /** °C */
  readonly airTemperature: number;
  readonly fingerings: readonly FingeringReport[];
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

/** Analyses every instrument of a file. @throws UnusableInput where one of them cannot be predicted, saying why */
export function analyseFile(read: ReadFile, settings: AnalysisSettings): readonly Analysis[] {
  return read.design.documents.map((document) => analyseOrExplain(read, document, settings));
}

function analyseOrExplain(read: ReadFile, document: DesignDocument, settings: AnalysisSettings): Analysis {
  const analysis = analyse(document.resolution.instrument, settings);
  if (analysis.instrument.column !== undefined) return analysis;
  const reasons = document.findings.filter(({ severity }) => severity !== "hint");
  const worst = reasons.filter(({ severity }) => severity === "error");
  throw new UnusableInput(
    read.file,
    [
      "the instrument cannot be predicted yet:",
      ...(worst.length > 0 ? worst : reasons).map((f) => findingLine(read, f)),
    ].join("\n"),
  );
}

export function pitchReport(file: string, analysis: Analysis): PitchReport {
  return {
    file,
    name: analysis.instrument.name ?? null,
    key: analysis.instrument.key?.name ?? null,
    airTemperature: analysis.temperature,
    fingerings: analysis.fingerings.map(fingeringReport),
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

/** The table a maker reads: one line a fingering, and the summary. */
export function pitchTable(file: string, analysis: Analysis): string {
  const { instrument, summary } = analysis;
  const title = [
    instrument.name ?? file,
    instrument.key && `in ${instrument.key.name}`,
    `air ${analysis.temperature} °C`,
  ];
  const rows = analysis.fingerings.map((prediction) => fingeringRow(prediction, analysis.tolerance));
  const body = table(
    ["note", "holes", "register", "target Hz", "predicted Hz", "cents", ""],
    ["left", "left", "right", "right", "right", "right", "left"],
    rows,
  );
  const close =
    summary === undefined
      ? "No fingering could be predicted."
      : `Worst ${deviationInWords(summary.worstCents)}, rms ${summary.rmsCents.toFixed(1)} cents; ${summary.outOfTune} of ${summary.count} farther than ±${analysis.tolerance} cents.`;
  return `${title.filter(Boolean).join(" · ")}\n${body}\n${close}`;
}

function fingeringRow(prediction: FingeringPrediction, tolerance: number): readonly string[] {
  const { fingering, targetHz, predictedHz, cents } = prediction;
  return [
    fingering.target?.name ?? "?",
    fingering.pattern ?? "?",
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
