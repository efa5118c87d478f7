/**
 * Writes the dimensions a refit found into the design: rounded as drawn, plain numbers in place, expressions through the
 * parameter that is theirs alone, else by changing their last number.
 */
import { Cancelled } from "../../acoustics/cancelled.js";
import type { DesignDocument, DesignFile } from "../../document/designFile.js";
import { numberAt } from "../../document/designNumbers.js";
import type { TextEdit } from "../../document/textEdit.js";
import { nodeAt } from "../../document/tree.js";
import type { Instrument } from "../../instrument/model.js";
import { constraintsOf } from "../constraints/constraints.js";
import { alongWith, type Unknown } from "../constraints/unknowns.js";
import { type NewNumber, NumberWriter } from "../edit/numberWriter.js";
import { ParameterWriter } from "../edit/parameterWriter.js";
import { drawnDecimals, toDrawn } from "../wording.js";
import type { DrawingStep } from "./drawingStep.js";
import type { Move } from "./move.js";

/** @param x printed millimetres, by unknown. @throws Cancelled */
export function writeSolution(
  file: DesignFile,
  document: DesignDocument,
  unknowns: readonly Unknown[],
  x: readonly number[],
  shouldStop: () => boolean = () => false,
): WrittenNumbers {
  const { instrument } = document.resolution;
  const { drills } = constraintsOf(document);
  const wanted = unknowns.flatMap((unknown, i) => {
    const exact = drawn(unknown, x[i] ?? Number.NaN, instrument);
    const isDrilled = drills !== undefined && unknown.kind === "hole-radius";
    // A hole that is straight and stays so needs no entry.
    if (
      unknown.kind === "hole-undercut" &&
      toDrawn(exact, instrument) === 0 &&
      numberAt(document, unknown.path) === undefined
    )
      return [];
    const value = isDrilled ? Number(exact.toFixed(MOST_DECIMALS)) : toDrawn(exact, instrument);
    const along = alongWith(unknown, instrument).map(({ path, offset }) => ({
      path,
      value: toDrawn(value + offset, instrument),
    }));
    return [{ path: unknown.path, value }, ...along];
  });
  return writeNumbers(file, document, wanted, shouldStop);
}

export interface WrittenNumbers {
  readonly edits: readonly TextEdit[];
  readonly moves: readonly Move[];
}

/** Values of the drawing, each where it stands, in the file's unit. @throws Cancelled */
export function writeNumbers(
  file: DesignFile,
  document: DesignDocument,
  wanted: readonly NewNumber[],
  shouldStop: () => boolean = () => false,
): WrittenNumbers {
  const decimals = Math.max(
    drawnDecimals(document.resolution.instrument),
    ...wanted.map(({ value }) => decimalsOf(value)),
  );
  const writer = new NumberWriter(file, document);
  // Plain numbers first: what refers to them follows, and is put right after.
  const plain = wanted.filter(({ path }) => numberAt(document, path)?.expression === undefined);
  writer.setAll(changing(document, plain), decimals);
  const rest = wanted.filter((each) => !plain.includes(each));
  const through = new ParameterWriter(
    writer,
    decimals,
    rest.map(({ path }) => path),
  );
  for (const { path, value } of rest) {
    if (shouldStop()) throw new Cancelled();
    through.write(path, value);
  }
  const moves = wanted.flatMap(({ path, value }): Move[] => {
    const from = numberAt(document, path)?.value ?? (path.at(-1) === "undercut" ? 0 : undefined);
    return from === undefined || Number(from.toFixed(decimals)) === value ? [] : [{ path, from, to: value }];
  });
  return { edits: writer.edits, moves };
}

/** For drills in inches, for example, which need more decimals than the drawing's steps. */
function decimalsOf(value: number): number {
  return Math.min(MOST_DECIMALS, (/\.(\d+)$/.exec(String(value))?.[1] ?? "").length);
}

const MOST_DECIMALS = 4;

/** Without the values of aliases and merge keys that are right as they are and whose anchor stays. */
function changing(document: DesignDocument, values: readonly NewNumber[]): readonly NewNumber[] {
  const isRight = ({ path, value }: NewNumber) => numberAt(document, path)?.value === value;
  const changed = values.filter((each) => !isRight(each));
  const places = new Set(changed.map(({ path }) => nodeAt(document.root, path)?.span.start));
  return values.filter((each) => {
    const source = nodeAt(document.root, each.path)?.source;
    return source === undefined || !isRight(each) || places.has(source.start);
  });
}

/** The drawing's step of each unknown in printed millimetres, and what is added to a printed value before it is drawn. */
export function drawingSteps(
  unknowns: readonly Pick<Unknown, "kind">[],
  instrument: Instrument,
  drills?: readonly number[],
): readonly DrawingStep[] {
  const step = 1e3 * instrument.printedUnit * instrument.rounding;
  return unknowns.map(({ kind }) => {
    if (kind === "hole-radius" && drills !== undefined) return drillStep(drills);
    const isRadius = kind === "hole-radius" || kind === "station-radius" || kind === "hole-undercut";
    return { step: isRadius ? step / 2 : step, offset: kind === "hole-radius" ? 500 * instrument.holeUndersize : 0 };
  });
}

/** Holes become what the drills at hand bore. @param drills diameters, mm */
function drillStep(drills: readonly number[]): DrawingStep {
  const choices = drills.map((drill) => drill / 2);
  const gaps = choices.slice(1).map((choice, i) => choice - (choices[i] ?? 0));
  return { step: gaps.length === 0 ? (choices[0] ?? 0) : Math.max(...gaps), offset: 0, choices };
}

/** The value to draw for a printed one: scale and shrinkage taken off, a printer's undersize added. File's unit. */
export function drawn({ kind }: Pick<Unknown, "kind">, mm: number, instrument: Instrument): number {
  const metres = mm * 1e-3;
  if (kind === "hole-radius") return (2 * metres + instrument.holeUndersize) / instrument.printedUnit;
  return (kind === "station-radius" || kind === "hole-undercut" ? 2 * metres : metres) / instrument.printedUnit;
}
