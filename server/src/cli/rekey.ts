/** `borewright rekey FILE --to NOTE --by METHOD`: the design in another key. */

import { basename } from "node:path";
import type { Freedom } from "../design/constraints/unknowns.js";
import { retune } from "../design/refit/rekeyByRefit.js";
import { rekey } from "../design/rekey/rekey.js";
import { CannotRekey, type RekeyMethod, type RekeyResult } from "../design/rekey/rekeyResult.js";
import { changeInWords, keysInWords, percentInWords } from "../design/rekey/rekeyWords.js";
import type { AnalysisSettings } from "../design/settings.js";
import { deviationInWords } from "../design/wording.js";
import { changeLine } from "../document/dimensionChanges.js";
import { jsonText } from "../escape/json.js";
import { bodyTraits } from "../instrument/families/bodyTraits.js";
import { type Note, parseNote } from "../music/note.js";
import { UnusableInput } from "./exitStatus.js";
import type { ReadFile } from "./files.js";
import { instrumentIn } from "./instrumentIn.js";
import { fingeringReport } from "./pitch.js";

export interface RekeyArguments {
  readonly to: Note;
  readonly by: RekeyMethod;
  /** Which instrument of a file that holds several, from 1. */
  readonly instrument?: number | undefined;
  /** By refit: power of the length's growth by which bore and mouth grow. */
  readonly growth?: number | undefined;
}

/** @throws UnusableInput */
export function rekeyFile(
  read: ReadFile,
  { to, by, instrument, growth }: RekeyArguments,
  settings: AnalysisSettings,
): RekeyResult {
  return explained(read, () => rekey(read.design, instrumentIn(read, instrument), to, by, settings, {}, growth));
}

/** @throws UnusableInput */
export function retuneFile(
  read: ReadFile,
  freedom: Freedom,
  instrument: number | undefined,
  settings: AnalysisSettings,
): RekeyResult {
  return explained(read, () => retune(read.design, instrumentIn(read, instrument), freedom, settings));
}

/** The notes of `--to G4,F4`, each once. @throws UnusableInput where one is not a note, or there is none */
export function wantedKeys(to = ""): readonly Note[] {
  const notes = to
    .split(",")
    .filter((text) => text.trim() !== "")
    .map((text) => {
      const note = parseNote(text);
      if (note !== undefined) return note;
      if (/^\s*[\d.]+\s*%?\s*$/.test(text))
        throw new UnusableInput(
          "--to",
          `${text.trim()} is a size, not a note: \`borewright scale FILE ${Number.parseFloat(text)}\` says what it plays at that size, and \`--to\` takes the note`,
        );
      throw new UnusableInput("--to", `${JSON.stringify(text)} is not a note: write it like G4, Bb3 or F#5`);
    });
  if (notes.length === 0) throw new UnusableInput("--to", "is missing: name the new key, like --to G4");
  return [...new Map(notes.map((note) => [note.name, note])).values()];
}

/** `flute.bore.yaml` in F#4 is `flute-in-fs4.bore.yaml`: only characters that any shell or file system accepts. */
export function copyName(file: string, { name }: Note): string {
  return basename(file).replace(/(\.bore\.\w+)?$/i, `-in-${name.toLowerCase().replaceAll("#", "s")}$1`);
}

function explained(read: ReadFile, work: () => RekeyResult): RekeyResult {
  try {
    return work();
  } catch (error) {
    if (error instanceof CannotRekey) throw new UnusableInput(read.file, error.message);
    throw error;
  }
}

export function rekeyJson(file: string, result: RekeyResult): string {
  const report = {
    file,
    from: result.from.name,
    to: result.to.name,
    by: result.by,
    printScalePercent: result.printScalePercent,
    fingerings: result.before.fingerings.map((before, i) => {
      const after = result.after.fingerings[i];
      return { ...fingeringReport(before), after: after === undefined ? null : fingeringReport(after) };
    }),
    changes: result.changes.map(({ path, name, old, next, unit, formula }) => ({
      path,
      name,
      old: old ?? null,
      new: next ?? null,
      unit,
      formula: formula ?? null,
    })),
    ...(result.by === "refit"
      ? { moves: result.moves, obstacles: result.obstacles, nearestKey: result.nearestKey?.name ?? null }
      : {}),
    text: result.text,
  };
  return jsonText(report);
}

/** What was done and what to know about it, for stderr: one text per line. */
export function rekeySummary(result: RekeyResult): readonly string[] {
  const { from, to, by, after } = result;
  // A vessel that keeps its mouth follows no interval: its pitch goes with the root of its volume.
  const noInterval = from.name === to.name || (by === "refit" && !bodyTraits(after.instrument.body).hasLength);
  const plain = noInterval ? "" : ` (the interval alone would say ${percentInWords(result.plainFactor)})`;
  const worst = result.after.summary;
  return [
    `${keysInWords(result, "→")}: ${changeInWords(result)}${plain}.`,
    ...(worst === undefined ? [] : [`Worst note now ${deviationInWords(worst.worstCents)}.`]),
    ...result.remarks,
    ...changeTable(result),
  ];
}

/** Old and new of every number, one per line, those by formula too. */
function changeTable({ changes }: RekeyResult): readonly string[] {
  return changes.map((change) => `  ${changeLine(change)}`);
}
