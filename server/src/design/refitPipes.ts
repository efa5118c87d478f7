/** A pan pipe brought to its notes by its stoppers alone: tubes and mouths stay as they are. */
import { Cancelled } from "../acoustics/cancelled.js";
import type { DesignDocument, DesignFile } from "../document/designFile.js";
import { applyEdits } from "../document/edits.js";
import { editsBetween } from "../document/editsBetween.js";
import { readDesign } from "../document/read.js";
import type { AnalyseOptions } from "./analyse.js";
import type { Analysis } from "./analysis.js";
import { changeNumber } from "./numberEdit.js";
import type { Move, Refit } from "./refit/refit.js";
import { pipeChange } from "./wholeChange.js";
import { drawnDecimals } from "./wording.js";

/** Every pipe whose note can be had; a length that others refer to is written first. @throws Cancelled */
export function refitPipes(
  file: DesignFile,
  document: DesignDocument,
  analysis: Analysis,
  { shouldStop }: AnalyseOptions,
): Refit {
  const goOn = () => {
    if (shouldStop?.()) throw new Cancelled();
  };
  const decimals = drawnDecimals(analysis.instrument);
  const changes = analysis.fingerings.flatMap((_, i) => {
    goOn();
    return pipeChange(analysis, i) ?? [];
  });
  let now = document;
  for (const { path, value } of changes) {
    goOn();
    const text = applyEdits(now.text, changeNumber(now, path, value, decimals));
    now = readDesign(text, file.syntax).documents[document.index] ?? now;
  }
  const moves = changes.flatMap(({ path, before, value }): Move[] => {
    const [from, to] = [before, Number(value.toFixed(decimals))];
    return Number(from.toFixed(decimals)) === to ? [] : [{ path, from, to }];
  });
  return { edits: editsBetween(document, now), moves, obstacles: [] };
}
