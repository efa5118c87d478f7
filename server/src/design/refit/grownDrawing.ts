/**
 * Between a print scale, by which everything grows, and a refit, which keeps the bore: bore, mouth and holes grow by a share of the
 * length's growth before the notes are solved for. Walls stay; places are the refit's.
 */

import type { DesignDocument, DesignFile } from "../../document/designFile.js";
import { numberAt } from "../../document/designNumbers.js";
import type { TextEdit } from "../../document/textEdit.js";
import { bodyTraits } from "../../instrument/families/bodyTraits.js";
import type { Path } from "../../instrument/finding.js";
import { stockOf } from "../../instrument/making/stock.js";
import { constraintsOf } from "../constraints/constraints.js";
import { toDrawn } from "../wording.js";
import type { Move } from "./move.js";
import { writeNumbers } from "./writeSolution.js";

/** Holes grow less: 5 to 8 mm on the high whistles, 7 to 11 on the low ones (log₂(9/6.5) = 0.47). As a share of the bore's power. Common practice, no source. */
const HOLES_SHARE = 2 / 3;

/** Of the mouth, what is as wide as the bore makes it. */
const MOUTH: readonly Path[] = [
  ["mouth", "window", "width"],
  ["mouth", "window", "cutUp"],
  ["mouth", "window", "stopper"],
  ["mouth", "windway", "width"],
  ["mouth", "notch", "width"],
  ["mouth", "hole", "length"],
  ["mouth", "hole", "width"],
  ["mouth", "stopper"],
];

export interface GrownDrawing {
  readonly edits: readonly TextEdit[];
  readonly moves: readonly Move[];
}

/**
 * @param factor how many times as long the instrument becomes
 * @param growth power of it by which bore and mouth grow, 0 … 1
 * @throws Cancelled
 */
export function grownDrawing(
  file: DesignFile,
  document: DesignDocument,
  factor: number,
  growth: number,
  shouldStop?: () => boolean,
): GrownDrawing {
  const { instrument, draft } = document.resolution;
  const { isFixed } = constraintsOf(document);
  const wider = boreFactor(document, factor ** growth);
  const larger = factor ** (growth * HOLES_SHARE);
  const stations = (draft.bore ?? []).filter(({ path }) => !isFixed(path));
  const before = stations.filter(({ at }) => at !== undefined && at < 0);
  const holes = instrument.holes.filter(({ path }) => !isFixed(path));
  const { body } = instrument;
  const pipes = body.kind === "pipes" ? body.pipes.map(({ path }) => path) : [];
  const wanted: readonly (readonly [Path, number])[] = !bodyTraits(body).hasLength
    ? []
    : [
        ...stations.map(({ path }) => [[...path, "diameter"], wider] as const),
        ...before.map(({ path }) => [[...path, "at"], wider] as const),
        ...pipes.map((path) => [[...path, "diameter"], wider] as const),
        ...MOUTH.map((path) => [path, wider] as const),
        ...holes.flatMap(({ path }) => ["diameter", "length"].map((name) => [[...path, name], larger] as const)),
      ];
  const values = wanted.flatMap(([path, by]) => {
    const present = numberAt(document, path)?.value;
    // A tube from stock has its own width, whatever the drawing's steps.
    const grown = (present ?? 0) * by;
    const isBore = path[0] === "bore" && path.at(-1) === "diameter" && stockOf(draft, "bores") !== undefined;
    return present === undefined ? [] : [{ path, value: isBore ? hundredths(grown) : toDrawn(grown, instrument) }];
  });
  return writeNumbers(file, document, values, shouldStop);
}

function hundredths(value: number): number {
  return Number(value.toFixed(2));
}

/** As a cylinder becomes one of the tubes at hand, the nearest; a shaped bore follows the power. */
function boreFactor({ resolution: { draft, instrument } }: DesignDocument, wider: number): number {
  const bores = stockOf(draft, "bores");
  const widths = (draft.bore ?? []).map(({ diameter }) => diameter);
  const [width] = widths;
  if (bores === undefined || width === undefined || widths.some((other) => other !== width)) return wider;
  const present = 1e3 * width * instrument.printedUnit;
  const nearest = bores.reduce((best, bore) =>
    Math.abs(Math.log(bore / (present * wider))) < Math.abs(Math.log(best / (present * wider))) ? bore : best,
  );
  return nearest / present;
}
