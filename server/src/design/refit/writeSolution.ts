/**
 * Writes the dimensions a refit found into the design: rounded as drawn, plain numbers in place, expressions through the
 * parameter that is theirs alone, else by changing their last number.
 */
import { Cancelled } from "../../acoustics/cancelled.js";
import { TextChanges } from "../../document/changes.js";
import type { DesignDocument, DesignFile } from "../../document/designFile.js";
import { namesOf, numberAt } from "../../document/designNumbers.js";
import { applyEdits, isUnderAlias, setNumber } from "../../document/edits.js";
import { readDesign } from "../../document/read.js";
import type { TextEdit } from "../../document/textEdit.js";
import { nodeAt } from "../../document/tree.js";
import type { Path } from "../../instrument/finding.js";
import { namesIn, parseExpression } from "../../instrument/formula/expression.js";
import type { ResolvedNumber } from "../../instrument/formula/resolvedNumber.js";
import type { Instrument } from "../../instrument/model.js";
import { pathKey, samePath } from "../../instrument/path.js";
import { constraintsOf } from "../constraints/constraints.js";
import { alongWith, type Unknown } from "../constraints/unknowns.js";
import { changeNumber } from "../edit/numberEdit.js";
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
    // A hole that is straight and stays so needs no word.
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
  wanted: readonly Written[],
  shouldStop: () => boolean = () => false,
): WrittenNumbers {
  const decimals = Math.max(
    drawnDecimals(document.resolution.instrument),
    ...wanted.map(({ value }) => decimalsOf(value)),
  );
  const writer = new Writer(file, document.index, decimals);
  // Plain numbers first: what refers to them follows, and is put right after.
  const plain = wanted.filter(({ path }) => numberAt(document, path)?.expression === undefined);
  writer.writeAll(changing(document, plain));
  const rest = wanted.filter((each) => !plain.includes(each));
  const taken = new Set<string>();
  for (const { path, value } of rest) {
    if (shouldStop()) throw new Cancelled();
    writer.writeExpression(
      path,
      value,
      taken,
      rest.map((other) => other.path),
    );
  }
  const moves = wanted.flatMap(({ path, value }): Move[] => {
    const from = numberAt(document, path)?.value ?? (path.at(-1) === "undercut" ? 0 : undefined);
    return from === undefined || Number(from.toFixed(decimals)) === value ? [] : [{ path, from, to: value }];
  });
  return { edits: writer.edits, moves };
}

/** In the file's unit. */
type Written = { readonly path: Path; readonly value: number };

/** Of a drill in inches, say: more than the drawing's steps have. */
function decimalsOf(value: number): number {
  return Math.min(MOST_DECIMALS, (/\.(\d+)$/.exec(String(value))?.[1] ?? "").length);
}

const MOST_DECIMALS = 4;

/** Without the values of aliases and merge keys that are right as they are and whose anchor stays. */
function changing(document: DesignDocument, values: readonly Written[]): readonly Written[] {
  const isRight = ({ path, value }: Written) => numberAt(document, path)?.value === value;
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

/** The design as it becomes, edit by edit. */
class Writer {
  document: DesignDocument;
  private readonly changes: TextChanges;

  constructor(
    file: DesignFile,
    private readonly index: number,
    private readonly decimals: number,
  ) {
    this.document = file.documents[index] as DesignDocument;
    this.changes = new TextChanges(file.text);
  }

  /** Of the text as it was at first. */
  get edits(): readonly TextEdit[] {
    return this.changes.edits;
  }

  writeAll(values: readonly Written[]): void {
    const write = (some: readonly Written[]) =>
      this.apply(some.flatMap(({ path, value }) => setNumber(this.document, path, value, this.decimals)));
    // Several values of one alias are written into what the first has made of it.
    const ofAliases = values.filter(({ path }) => isUnderAlias(this.document, path));
    write(values.filter((each) => !ofAliases.includes(each)));
    for (const each of ofAliases) write([each]);
  }

  /** Through a parameter that serves only values still to be written, or by the expression's own last number. */
  writeExpression(path: Path, value: number, taken: Set<string>, unwritten: readonly Path[]): void {
    const present = numberAt(this.document, path);
    if (present?.expression === undefined) return;
    const own = this.ownParameters(present, taken, unwritten);
    // What this value is made of stays from here on, also where it is right as it is.
    for (const { path: used } of own) taken.add(pathKey(used));
    if (Math.abs(present.value - value) < this.tolerance) return;
    for (const parameter of own) {
      const slope = this.slope(parameter, path);
      if (slope === 0) continue;
      this.writeAll([{ path: parameter.path, value: parameter.value + (value - present.value) / slope }]);
      break;
    }
    const left = numberAt(this.document, path);
    if (left === undefined || Math.abs(left.value - value) < this.tolerance) return;
    this.apply(changeNumber(this.document, path, value, this.decimals));
  }

  private get tolerance(): number {
    return 0.5 * 10 ** -this.decimals;
  }

  /** Parameters of an expression with a plain number, not used up, the last named first, that nothing else depends on. */
  private ownParameters(
    number: ResolvedNumber,
    taken: ReadonlySet<string>,
    unwritten: readonly Path[],
  ): ResolvedNumber[] {
    const { numbers } = this.document.resolution;
    const names = namesOf(this.document);
    const used = (expression: string | undefined) => {
      const { ast } = parseExpression(expression ?? "");
      return ast === undefined
        ? []
        : namesIn(ast).flatMap(({ steps }) => {
            const path = names.pathOf(steps);
            return path === undefined ? [] : [path];
          });
    };
    const free = (path: Path) =>
      path[0] === "parameters" &&
      !taken.has(pathKey(path)) &&
      numberAt(this.document, path)?.expression === undefined &&
      numbers.every(
        ({ path: user, expression }) =>
          unwritten.some((each) => samePath(each, user)) || !used(expression).some((name) => samePath(name, path)),
      );
    return used(number.expression)
      .filter(free)
      .reverse()
      .flatMap((path) => numberAt(this.document, path) ?? []);
  }

  /** How far the value at `path` moves for one unit of a parameter, found by trying. */
  private slope(parameter: ResolvedNumber, path: Path): number {
    const before = numberAt(this.document, path)?.value ?? Number.NaN;
    const trial = applyEdits(this.document.text, setNumber(this.document, parameter.path, parameter.value + 1, 6));
    const after = readDesign(trial, this.document.syntax).documents[this.index];
    const slope = (after === undefined ? Number.NaN : (numberAt(after, path)?.value ?? Number.NaN)) - before;
    return Number.isFinite(slope) ? slope : 0;
  }

  private apply(edits: readonly TextEdit[]): void {
    if (edits.length === 0) return;
    this.changes.make(edits);
    this.document = readDesign(this.changes.text, this.document.syntax).documents[this.index] ?? this.document;
  }
}
