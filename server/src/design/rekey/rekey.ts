/** A design in another key, by one print scale or by redrawing every dimension. */

import type { DesignDocument, DesignFile } from "../../document/designFile.js";
import { applyEdits, setText } from "../../document/edits.js";
import type { TextEdit } from "../../document/textEdit.js";
import { isDescribed } from "../../instrument/body.js";
import { type Note, transposed } from "../../music/note.js";
import { t } from "../../words/translation.js";
import { type AnalyseOptions, analyse } from "../predict/analyse.js";
import type { Analysis } from "../predict/analysis.js";
import { sensitivitiesOf } from "../predict/sensitivity.js";
import { rekeyByRefit } from "../refit/rekeyByRefit.js";
import { type AnalysisSettings, DEFAULT_SETTINGS } from "../settings.js";
import { deviationInWords } from "../wording.js";
import { bestSize, RIGHT_ON_AVERAGE, staysAsItIs } from "./bestSize.js";
import { changesBetween } from "./changes.js";
import { reanalyse, targetRatio } from "./newTargets.js";
import { offered } from "./offered.js";
import { printScaleEdits, printScalePercent } from "./printScale.js";
import { redrawEdits } from "./redraw/redraw.js";
import { CannotRekey, type RekeyMethod, type RekeyResult } from "./rekeyResult.js";
import { growthRemarks } from "./remarks.js";
import { sizeFactor } from "./sizeFactor.js";

/**
 * Moves instrument `index` of a file to the key `to`. The size is chosen so that the deviations of all fingerings average
 * zero: no other size brings them nearer in the least-squares sense.
 * @param growth by refit, power of the length's growth by which bore and mouth grow, 0 … 1; default: what the design says
 * @throws CannotRekey where key or dimensions are missing; Cancelled when told to stop
 */
export function rekey(
  file: DesignFile,
  index: number,
  to: Note,
  by: RekeyMethod,
  settings: AnalysisSettings = DEFAULT_SETTINGS,
  options: AnalyseOptions = {},
  growth?: number,
): RekeyResult {
  const document = file.documents[index];
  const from = document?.resolution.instrument.key;
  if (document === undefined) throw new CannotRekey(t`there is no instrument ${index + 1} in this file`);
  if (from === undefined) throw new CannotRekey(t("the design names no key: add `key:` with a note such as G4"));
  const before = analyse(document.resolution.instrument, settings, options);
  if (!isDescribed(before.instrument.body))
    throw new CannotRekey(t("the instrument is not fully described yet: see the findings"));
  if (before.summary === undefined) throw new CannotRekey(t("no fingering of the design can be predicted"));

  const renamingTo = (note: Note) => keyEdits(document, from, note);
  if (by === "refit") return rekeyByRefit({ file, document, from, to, before, renamingTo, growth, settings, options });
  const renaming = renamingTo(to);
  const slopes = by === "redraw" ? sensitivitiesOf(document.resolution, before) : undefined;
  const sized = (factor: number) => {
    const { edits: sizing, remarks } =
      by === "redraw"
        ? redrawEdits(file, document, factor, slopes)
        : { edits: printScaleEdits(document, file.syntax, factor), remarks: [] };
    const edits = [...renaming, ...sizing];
    const text = applyEdits(file.text, edits);
    return { edits, remarks, text, after: reanalyse(file, text, index, settings, options) };
  };
  // Start from the ratio of old targets to new ones.
  const plainFactor = targetRatio(before, reanalyse(file, applyEdits(file.text, renaming), index, settings, options));
  const size = () => {
    const factor = sizeFactor(document.resolution, before, { key: to, ...options });
    // A drawing's dimensions are rounded one by one, so sizes around this one are tried, too.
    if (by === "redraw") return bestSize(sized, factor);
    const result = sized(factor);
    return result.after.summary === undefined ? undefined : { factor, result };
  };
  // The same rekey again changes nothing.
  const stays = from.name === to.name && staysAsItIs(before, by);
  const found = stays ? { factor: 1, result: unchanged(file, before) } : size();
  if (found === undefined) throw new CannotRekey(t`at ${to.name} no fingering of the design sounds any more`);
  const { factor, result } = found;
  const { edits, text } = offered(file, index, result.edits);
  // A value that is written out, and no longer follows others, sounds different.
  const after = text === result.text ? result.after : reanalyse(file, text, index, settings, options);
  const made = { ...result, edits, text, after };
  return {
    from,
    to,
    by,
    factor,
    plainFactor,
    printScalePercent: printScalePercent(after.instrument.printScale),
    ...made,
    before,
    changes: changesBetween(file, document, text),
    moves: [],
    obstacles: [],
    remarks: stays ? [] : [...result.remarks, ...roundingRemarks(after, by), ...growthRemarks(before, after, document)],
  };
}

function unchanged(file: DesignFile, after: Analysis) {
  return { edits: [] as readonly TextEdit[], remarks: [] as readonly string[], text: file.text, after };
}

/** Reported if rounding shifts the notes on average. */
function roundingRemarks({ summary }: Analysis, by: RekeyMethod): readonly string[] {
  const mean = summary?.meanCents ?? 0;
  if (by !== "redraw" || Math.abs(mean) <= RIGHT_ON_AVERAGE) return [];
  return [t`The drawing's rounding leaves the notes ${deviationInWords(mean)} on average.`];
}

/** `key` and every absolute `note` of the fingerings move; degrees follow the key by themselves. */
export function keyEdits(document: DesignDocument, from: Note, to: Note): readonly TextEdit[] {
  const notes = document.resolution.instrument.fingerings.flatMap(({ path, target, targetKind }) => {
    if (targetKind !== "note" || target === undefined) return [];
    const moved = transposed(target, from, to);
    if (moved === undefined) throw new CannotRekey(t`${target.name} would leave the range of notes in ${to.name}`);
    return setText(document, [...path, "note"], moved.name);
  });
  return [...setText(document, ["key"], to.name), ...notes];
}
