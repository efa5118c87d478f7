/** A pan pipe brought to its notes by its stoppers alone: tubes and mouths stay as they are. */
import { Cancelled } from "../../acoustics/cancelled.js";
import type { DesignDocument, DesignFile } from "../../document/designFile.js";
import { t } from "../../words/translation.js";
import { NumberWriter } from "../edit/numberWriter.js";
import { newlyBroken } from "../fix/breaksMore.js";
import { pipeChange, type WholeChange } from "../fix/wholeChange.js";
import type { AnalyseOptions } from "../predict/analyse.js";
import type { Analysis } from "../predict/analysis.js";
import { nameOfFingering } from "../predict/governing.js";
import type { Prospect } from "../rekey/nearestKey.js";
import { drawnDecimals, drawnLength, toDrawn } from "../wording.js";
import type { Obstacle } from "./obstacle.js";
import type { Refit } from "./refit.js";

/** A pipe is not cut again for less, cents: half of what a tenth of a millimetre does to the shortest ones. */
const LEAST_GAIN = 0.5;

/** Every pipe whose note can be reached and whose new length the printer takes; a length that others refer to is written first. @throws Cancelled */
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
  const wanted = changes.filter((change) => isNearer(analysis, change));
  let writer = written(file, document, wanted);
  const obstacles: Obstacle[] = [];
  // All in one reading of the design where nothing forbids it, else one by one to see which may be.
  if (newlyBroken(document, writer.document) !== undefined) {
    const taken: WholeChange[] = [];
    writer = new NumberWriter(file, document);
    for (const change of wanted) {
      goOn();
      const before = writer.document;
      writer.writeDrawn(change.path, change.value);
      const broken = newlyBroken(before, writer.document);
      if (broken === undefined) taken.push(change);
      else {
        obstacles.push(obstacleOf(analysis, change, broken.message));
        writer = written(file, document, taken);
      }
    }
  }
  const isInTune = obstacles.length === 0 && changes.length === analysis.fingerings.length;
  return { edits: writer.edits, moves: writer.moves, isInTune, obstacles: () => obstacles, keptLimits: true };
}

/** Whether a pipe as it would be drawn is nearer to its note, as far as it is off for each millimetre. */
function isNearer({ fingerings, instrument }: Analysis, { fingering, before, value }: WholeChange): boolean {
  const cents = fingerings[fingering]?.cents;
  if (cents === undefined || value === before) return cents === undefined;
  const left = (cents * (value - toDrawn(value, instrument))) / (value - before);
  return Math.abs(left) < Math.abs(cents) - LEAST_GAIN;
}

function written(file: DesignFile, document: DesignDocument, changes: readonly WholeChange[]): NumberWriter {
  const writer = new NumberWriter(file, document);
  const { instrument } = document.resolution;
  const lengths = changes.map(({ path, value }) => ({ path, value: toDrawn(value, instrument) }));
  writer.writeAll(lengths, drawnDecimals(instrument));
  return writer;
}

function obstacleOf({ fingerings, instrument }: Analysis, change: WholeChange, finding: string): Obstacle {
  const { fingering, before, value } = change;
  const prediction = fingerings[fingering];
  const note = prediction === undefined ? t("a note") : nameOfFingering(prediction);
  const [needed, has] = [value, before].map((length) => drawnLength(length * instrument.printedUnit, instrument));
  return {
    message: t`${note} would need a pipe of ${needed}, but it has ${has}: ${finding.replace(/\.$/, "")}`,
    advice: t("state a larger bed (print.bed) or a wider pipe"),
    limit: 1e3 * before * instrument.printedUnit,
    needed: 1e3 * value * instrument.printedUnit,
    unit: "mm",
  };
}

/** Whether every pipe can reach its note by its length. @throws Cancelled */
export function pipesProspect(
  file: DesignFile,
  document: DesignDocument,
  analysis: Analysis,
  options: AnalyseOptions,
): Prospect {
  return refitPipes(file, document, analysis, options).isInTune ? "can" : "cannot";
}
