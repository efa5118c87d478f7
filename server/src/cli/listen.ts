/** `borewright listen RECORDING`: the notes of a recording, and of a design which fingering each was played with. */
import { analyse } from "../design/predict/analyse.js";
import type { Analysis } from "../design/predict/analysis.js";
import type { AnalysisSettings } from "../design/settings.js";
import { signedCents } from "../design/wording.js";
import type { DesignDocument } from "../document/designFile.js";
import { applyEdits } from "../document/edits.js";
import { jsonText } from "../escape/json.js";
import { table } from "../escape/table.js";
import { readChunks } from "../files/readChunks.js";
import { type HeardDesign, hearDesign, rangeOf } from "../listen/heardDesign.js";
import { type MeasuredEntry, measuredEdits, measuredEntries } from "../listen/measuredEdits.js";
import { ratioOfCents } from "../music/cents.js";
import { noteFromMidi } from "../music/note.js";
import { listen, type Recording } from "../sound/listen.js";
import type { HeardNote } from "../sound/listener.js";
import type { SampleFormat } from "../sound/sampleFormat.js";
import { NotReadable } from "../sound/wavHeader.js";
import { UnusableInput } from "./exitStatus.js";
import type { ReadFile } from "./files.js";
import { instrumentIn } from "./instrumentIn.js";

/** Standard input, as a path. */
export const STANDARD_INPUT = "-";
/** Cents per second: a falling breath is heard from here on. Common practice, no source. */
const DRIFTS = 5;
/** Clipped samples from which on they are mentioned. */
const MANY_CLIPPED = 20;
/** Notes left out are reported from this length on, seconds. */
const WORTH_TELLING = 0.3;

export interface ListenResult {
  readonly recording: Recording;
  readonly design?: {
    readonly read: ReadFile;
    readonly document: DesignDocument;
    readonly analysis: Analysis;
    readonly heard: HeardDesign;
    readonly entries: readonly MeasuredEntry[];
  };
}

export interface ListenArguments {
  readonly file: string;
  readonly raw: SampleFormat | undefined;
  readonly design: ReadFile | undefined;
  readonly instrument: number | undefined;
  readonly temperature: number | undefined;
  readonly onNote: ((note: HeardNote) => void) | undefined;
}

/** @throws UnusableInput, FileTrouble */
export async function listenTo(given: ListenArguments, settings: AnalysisSettings): Promise<ListenResult> {
  const { file, raw, onNote, design: read } = given;
  const document = read?.design.documents[instrumentIn(read, given.instrument)];
  const analysis = document && analyse(document.resolution.instrument, settings);
  const range = analysis && rangeOf(analysis);
  if (read !== undefined && range === undefined)
    throw new UnusableInput(read.file, "has no fingering that is predicted: borewright check says what is missing");
  const recording = await heard(file, { raw, range, onNote });
  if (read === undefined || document === undefined || analysis === undefined) return { recording };
  const match = hearDesign(recording.notes, document, analysis);
  const entries = measuredEntries(match.pooled.measurements, analysis.fingerings, given.temperature);
  return { recording, design: { read, document, analysis, heard: match, entries } };
}

async function heard(file: string, options: Parameters<typeof listen>[1]): Promise<Recording> {
  try {
    return await listen(file === STANDARD_INPUT ? process.stdin : readChunks(file), options);
  } catch (error) {
    if (error instanceof NotReadable) throw new UnusableInput(file, error.message.replace(/\.$/, ""));
    throw error;
  }
}

/** The design with what was heard under `measured`, and the notes whose old value stays. */
export function withMeasured({ read, document, entries }: NonNullable<ListenResult["design"]>, replace: boolean) {
  const { measured } = document.resolution.instrument;
  const { edits, kept } = measuredEdits(document, entries, measured, replace);
  return { text: applyEdits(read.design.text, edits), kept };
}

/** Whether a note is in question, so that not all that was heard is written. */
export function isAsked({ design }: ListenResult): boolean {
  return design?.heard.matching.matches.some(({ question }) => question !== undefined) ?? false;
}

/** One line for a note as it is heard. */
export function noteLine(note: HeardNote): string {
  return cellsOf(note).join("  ");
}

export function listenTable({ recording, design }: ListenResult): readonly string[] {
  const { notes, left, clipped, damaged } = recording;
  if (notes.length === 0)
    return ["No sustained note was found: each needs 0.3 s at least, louder than the room.", ...leftLines(left)];
  const rows = notes.map((note, i) => [
    ...cellsOf(note),
    ...(design === undefined ? [] : [matchCell(design, i)]),
    swayOf(note),
  ]);
  const header = ["at", "lasts", "Hz", "note", "cents", "±", ...(design === undefined ? [] : ["fingering of"]), ""];
  const right = "right" as const;
  const align = [right, right, right, "left", right, right, "left", "left"] as const;
  return [
    ...table(header, align, rows),
    ...(design === undefined ? [] : designLines(design)),
    ...(clipped > MANY_CLIPPED
      ? [`The recording is clipped (${clipped} samples): the pitch is little harmed; record softer.`]
      : []),
    ...(damaged > 0 ? [`${damaged} samples of the recording are not numbers and were read as silence.`] : []),
    ...leftLines(left),
  ];
}

function cellsOf({ start, seconds, cents, uncertainty }: HeardNote): readonly string[] {
  const midi = Math.round(69 + cents / 100);
  return [
    `${start.toFixed(2)} s`,
    `${seconds.toFixed(1)} s`,
    hzOf(cents).toFixed(2),
    noteFromMidi(midi)?.name ?? "",
    signedCents(cents - 100 * (midi - 69)),
    uncertainty.toFixed(1),
  ];
}

function matchCell({ analysis, heard: { matching } }: NonNullable<ListenResult["design"]>, i: number): string {
  const { fingering, question } = matching.matches[i] ?? {};
  if (question !== undefined) return `? ${question}`;
  return fingering === undefined ? "" : (analysis.fingerings[fingering]?.fingering.target?.name ?? "");
}

function swayOf({ drift, vibrato, accompanied }: HeardNote): string {
  const drifts = Math.abs(drift) > DRIFTS ? [`drifts ${signedCents(drift)} cents/s: hold the breath steady`] : [];
  const sways =
    vibrato === undefined ? [] : [`vibrato ${vibrato.rate.toFixed(1)} Hz ±${vibrato.extent.toFixed(0)} cents`];
  return [...(accompanied ? ["two notes at once"] : []), ...drifts, ...sways].join(", ");
}

function designLines({
  analysis,
  heard: { matching, pooled },
  entries,
}: NonNullable<ListenResult["design"]>): readonly string[] {
  const all =
    matching.offset === undefined ? "" : ` All together ${signedCents(matching.offset)} cents of the prediction.`;
  const repeats = pooled.assumed
    ? ` Every note was played once: ±${pooled.scatter.toFixed(0)} cents are assumed for a play.`
    : ` Plays of one note scatter by ${pooled.scatter.toFixed(1)} cents.`;
  const asked = matching.matches.filter(({ question }) => question !== undefined).length;
  return [
    `${entries.length} of ${analysis.fingerings.length} fingerings heard.${all}${entries.length > 0 ? repeats : ""}`,
    ...(asked > 0 ? [`${asked} ${asked === 1 ? "note is" : "notes are"} in question (?) and left out.`] : []),
    ...(matching.doubtful
      ? ["More than a third of the notes are in question: is this the design that was played? Nothing is written."]
      : []),
  ];
}

function leftLines(left: Recording["left"]): readonly string[] {
  return left
    .filter(({ note }) => note.seconds > WORTH_TELLING)
    .map(({ note, why }) => `Left out: ${note.start.toFixed(1)} s, ${hzOf(note.cents).toFixed(1)} Hz, ${why}.`);
}

export function listenJson({ recording, design }: ListenResult): string {
  const names = design?.analysis.fingerings.map(({ fingering }) => fingering.target?.name ?? null);
  return jsonText({
    seconds: recording.seconds,
    notes: recording.notes.map((note, i) => {
      const match = design?.heard.matching.matches[i];
      return {
        start: note.start,
        end: note.end,
        hz: hzOf(note.cents),
        uncertaintyCents: note.uncertainty,
        driftCentsPerSecond: note.drift,
        vibrato: note.vibrato ?? null,
        ...(match && { fingeringOf: names?.[match.fingering ?? -1] ?? null, question: match.question ?? null }),
      };
    }),
    ...(design && { measured: design.entries, offsetCents: design.heard.matching.offset ?? null }),
  });
}

function hzOf(cents: number): number {
  return 440 * ratioOfCents(cents);
}
