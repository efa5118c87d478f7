/** One line above each instrument: what it is, how far it is out of tune, and what can be done about it. */

import type { CodeLens, Command } from "vscode-languageserver";
import type { Analysis } from "../design/predict/analysis.js";
import type { DesignDocument } from "../document/designFile.js";
import { label } from "../escape/label.js";
import { contained } from "../instrument/contained.js";
import { OPEN_BORE_VIEW, type ViewPlace } from "../protocol/boreView.js";
import { t } from "../words/translation.js";
import { bodyWords } from "./bodyWords.js";
import { SHOW_WORST_COMMAND } from "./commands/names.js";
import type { DesignContext } from "./designContext.js";
import { rangeOf } from "./designContext.js";
import { worstOf } from "./governing.js";
import { fingeringName, plain } from "./words.js";

/** The client's own command that asks for a note and a way, then rekeys. Arguments: {@link RekeyToArguments}. */
export const REKEY_TO_COMMAND = "borewright.rekeyTo";

export interface RekeyToArguments {
  readonly uri: string;
  readonly documentIndex: number;
}

/** The instruments that get a lens. */
export function summedUpDocuments({ settings, file }: DesignContext): readonly DesignDocument[] {
  if (!settings.codeLens.enabled) return [];
  return file.documents.filter(({ root }) => root?.kind === "map" && root.entries.length > 0);
}

/** Lenses of every instrument in the file. */
export function codeLenses(context: DesignContext): CodeLens[] {
  if (context.file.text.trim() === "") return forNothing(context);
  return summedUpDocuments(context).flatMap((document) => {
    const title = contained("The summary", () => label(summaryOf(context.analysis(document))), "");
    const place: ViewPlace = { uri: context.uri, documentIndex: document.index };
    // A lens without a command would be shown by some clients only, and fail in their list of commands.
    const summary: Command = { title, command: SHOW_WORST_COMMAND, arguments: [place] };
    const range = rangeOf(context, { start: top(document), end: top(document) });
    return [summary, ...actions(context, document)].map((command) => ({ range, command }));
  });
}

/** The client's own command that begins an instrument. */
export const NEW_INSTRUMENT_COMMAND = "borewright.newInstrument";

/** What to do with an empty file. */
function forNothing({ client, settings }: DesignContext): CodeLens[] {
  if (!settings.codeLens.enabled || !client.commands.has(NEW_INSTRUMENT_COMMAND)) return [];
  const start = { line: 0, character: 0 };
  const command: Command = { title: t("New instrument, in tune from the start…"), command: NEW_INSTRUMENT_COMMAND };
  return [{ range: { start, end: start }, command }];
}

/** `G4 duct · 8 fingerings · worst −12 cents (A4) · 22 °C`: in words, so that it can be read aloud. */
export function summaryOf(analysis: Analysis): string {
  const { instrument, summary, temperature } = analysis;
  const kind = [instrument.key?.name, instrument.family].filter((part) => part !== undefined).join(" ");
  const count = bodyWords(instrument.body).counted(analysis.fingerings.length);
  return [
    kind,
    count,
    ...(summary === undefined ? [notPredicted(analysis)] : deviation(analysis)),
    `${plain(temperature, 1)} °C`,
    instrument.calibrated ? t("calibrated") : "",
  ]
    .filter((part) => part !== "")
    .join(" · ");
}

/** A whole number of cents: a summary is for a glance, the tenths stand beside each fingering. */
function deviation(analysis: Analysis): string[] {
  const worst = worstOf(analysis.fingerings.map((prediction, index) => ({ ...prediction, index })));
  if (worst === undefined || analysis.summary === undefined) return [];
  const name = fingeringName(worst.fingering, worst.index);
  const { outOfTune } = analysis.summary;
  const size = Math.abs(worst.cents).toFixed(0);
  const way = size === "0" ? "" : worst.cents > 0 ? ` ${t("sharp")}` : ` ${t("flat")}`;
  return [t`worst ${size} cents${way} (${name})`, outOfTune === 0 ? t("all in tune") : t`${outOfTune} out of tune`];
}

function notPredicted(analysis: Analysis): string {
  if (analysis.fingerings.length === 0) return bodyWords(analysis.instrument.body).noneYet();
  return t("not enough to predict from yet");
}

function actions({ client, uri }: DesignContext, document: DesignDocument): Command[] {
  const place: RekeyToArguments & ViewPlace = { uri, documentIndex: document.index };
  const offered = [
    { title: t("Bore view"), command: OPEN_BORE_VIEW, possible: true },
    { title: t("Rekey to…"), command: REKEY_TO_COMMAND, possible: document.resolution.instrument.key !== undefined },
  ];
  return offered
    .filter(({ command, possible }) => possible && client.commands.has(command))
    .map(({ title, command }) => ({ title, command, arguments: [place] }));
}

/** Above the first entry, so that in a file of several the lens stands below the `---` that opens its instrument. */
function top(document: DesignDocument): number {
  const first = document.root?.kind === "map" ? document.root.entries.find(({ merged }) => !merged) : undefined;
  return document.root?.kind === "map" && document.root.flow
    ? document.root.span.start
    : (first?.keySpan.start ?? document.span.start);
}
