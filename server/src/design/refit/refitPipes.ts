/** A pan pipe brought to its notes by its stoppers alone: tubes and mouths stay as they are. */
import { Cancelled } from "../../acoustics/cancelled.js";
import type { DesignDocument, DesignFile } from "../../document/designFile.js";
import { NumberWriter } from "../edit/numberWriter.js";
import { pipeChange } from "../fix/wholeChange.js";
import type { AnalyseOptions } from "../predict/analyse.js";
import type { Analysis } from "../predict/analysis.js";
import type { Refit } from "./refit.js";

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
  const changes = analysis.fingerings.flatMap((_, i) => {
    goOn();
    return pipeChange(analysis, i) ?? [];
  });
  const writer = new NumberWriter(file, document);
  for (const { path, value } of changes) {
    goOn();
    writer.writeDrawn(path, value);
  }
  return { edits: writer.edits, moves: writer.moves, obstacles: [], keptLimits: true };
}
