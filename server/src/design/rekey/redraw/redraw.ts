/** Every dimension of a design rewritten by one factor, through its parameters where it has some. */
import type { DesignDocument, DesignFile } from "../../../document/designFile.js";
import { namesOf } from "../../../document/designNumbers.js";
import { applyEdits, meaning, setNumber, setText } from "../../../document/edits.js";
import { readDesign } from "../../../document/read.js";
import type { TextEdit } from "../../../document/textEdit.js";
import { nodeAt } from "../../../document/tree.js";
import { dataOf } from "../../../document/treeData.js";
import type { Path } from "../../../instrument/finding.js";
import type { ResolvedNumber } from "../../../instrument/formula/resolvedNumber.js";
import { pathKey } from "../../../instrument/path.js";
import { placeInWords } from "../../../instrument/placeInWords.js";
import { t } from "../../../words/translation.js";
import { type LengthPowers, lengthPowers, type ScaledLiteral } from "./lengthPowers.js";

/** A redrawn length is written to a hundredth of a millimetre, finer than a printer places it. */
const MILLIMETRE_DECIMALS = 2;
const INCH_DECIMALS = 4;

export interface Redrawn {
  readonly edits: readonly TextEdit[];
  readonly remarks: readonly string[];
}

export function redrawEdits(file: DesignFile, document: DesignDocument, factor: number): Redrawn {
  const { numbers, instrument } = document.resolution;
  const decimals = instrument.unitMillimetres === 1 ? MILLIMETRE_DECIMALS : INCH_DECIMALS;
  const names = namesOf(document);
  const powers = lengthPowers(numbers, names);
  const context: Context = { document, powers, factor, decimals };
  const byPath = new Map(numbers.map((number) => [pathKey(number.path), editsOf(number, context)]));
  const outOfStep = new Set(stragglers(file, document, context, [...byPath.values()].flat()));
  const replaced = numbers.filter(({ path }) => outOfStep.has(pathKey(path)));
  for (const number of replaced) {
    const value = number.value * factor ** (powers.powers.get(pathKey(number.path)) ?? 0);
    byPath.set(pathKey(number.path), setNumber(document, number.path, value, decimals));
  }
  // What an alias or a merge key brings in changes with its anchor, as intended.
  const follow = numbers.filter(({ path }) => powers.powers.get(pathKey(path)) && broughtIn(document, path));
  const edits = follow.reduce<readonly TextEdit[]>(
    (all, { path }) => meaning({ path }, all),
    [...byPath.values()].flat(),
  );
  return { edits, remarks: replacedRemarks(replaced, document) };
}

interface Context {
  readonly document: DesignDocument;
  readonly powers: LengthPowers;
  readonly factor: number;
  readonly decimals: number;
}

/** Edits for one number, none where it stays or where what it refers to carries the change. */
function editsOf({ path, value, expression }: ResolvedNumber, context: Context): readonly TextEdit[] {
  const { document, powers, factor, decimals } = context;
  const key = pathKey(path);
  const power = powers.powers.get(key) ?? 0;
  // An alias or merged value follows its anchor, which is a number of its own.
  if (power === 0 || broughtIn(document, path)) return [];
  if (expression === undefined) return setNumber(document, path, value * factor ** power, decimals);
  const literals = powers.literals.get(key) ?? [];
  if (literals.length === 0) return [];
  return setText(document, path, `=${scaleLiterals(expression, literals, factor, decimals)}`);
}

function broughtIn(document: DesignDocument, path: Path): boolean {
  return path.some((_, i) => nodeAt(document.root, path.slice(0, i + 1))?.source !== undefined);
}

function scaleLiterals(
  expression: string,
  literals: readonly ScaledLiteral[],
  factor: number,
  decimals: number,
): string {
  return [...literals]
    .sort((a, b) => b.start - a.start)
    .reduce(
      (text, { start, end, value, power }) =>
        text.slice(0, start) + Number((value * factor ** power).toFixed(decimals)) + text.slice(end),
      expression,
    );
}

/** Numbers that are not what they should be after the edits, found by reading the result. `pathKey`s. */
function stragglers(
  file: DesignFile,
  document: DesignDocument,
  { powers, factor, decimals }: Context,
  edits: readonly TextEdit[],
): readonly string[] {
  const text = applyEdits(file.text, edits);
  const after = readDesign(text, file.syntax).documents[document.index]?.resolution.numbers ?? [];
  const found = new Map(after.map(({ path, value }) => [pathKey(path), value]));
  // A few rounded terms may add up in one expression.
  const tolerance = 5 * 10 ** -decimals;
  return document.resolution.numbers.flatMap(({ path, value }) => {
    const key = pathKey(path);
    if (path[0] === "parameters") return [];
    const power = powers.powers.get(key) ?? 0;
    if (power === 0) return [];
    const expected = value * factor ** power;
    const off = Math.abs((found.get(key) ?? Number.NaN) - expected);
    return off <= Math.max(tolerance, Math.abs(expected) * 1e-3) ? [] : [key];
  });
}

function replacedRemarks(replaced: readonly ResolvedNumber[], { root }: DesignDocument): readonly string[] {
  const expressions = replaced.filter(({ expression }) => expression !== undefined);
  if (expressions.length === 0) return [];
  const data = dataOf(root);
  const places = expressions.map(({ path }) => placeInWords(path, data)).join(", ");
  return [t`Expressions that do not grow in step with the instrument became plain numbers: ${places}.`];
}
