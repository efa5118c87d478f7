/** Steps of the bench that are done, written into the design. */
import type { DesignDocument, DesignFile } from "../../document/designFile.js";
import type { TextEdit } from "../../document/textEdit.js";
import { nodeAt } from "../../document/tree.js";
import { NumberWriter } from "../edit/numberWriter.js";
import type { BenchStep } from "./plan.js";

/** Thousandths of a millimetre, or as fine in inches: the finished size counts, whatever the drawing's steps. */
const DECIMALS = { millimetres: 3, inches: 5 };

/**
 * Edits of the sizes as worked, and of the measured notes, which belong to the instrument before the work: they are removed, since
 * the next plan would attribute their difference to the mouth.
 */
export function doneEdits(
  file: DesignFile,
  document: DesignDocument,
  steps: readonly BenchStep[],
): readonly TextEdit[] {
  const { instrument } = document.resolution;
  const decimals = instrument.unitMillimetres === 1 ? DECIMALS.millimetres : DECIMALS.inches;
  const writer = new NumberWriter(file, document);
  for (const { path, drawn, alsoMoved } of steps) {
    const sizes = [{ path, drawn }, ...alsoMoved];
    writer.writeAll(
      sizes.map((size) => ({ path: size.path, value: size.drawn / instrument.printedUnit })),
      decimals,
    );
  }
  return [...writer.edits, ...withoutMeasured(document)];
}

function withoutMeasured({ root }: DesignDocument): readonly TextEdit[] {
  const node = nodeAt(root, ["measured"]);
  if (node?.kind !== "list") return [];
  return [{ span: node.span, text: "[]", meant: [{ path: ["measured"] }] }];
}
