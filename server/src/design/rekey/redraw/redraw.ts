/** Every dimension of a design rewritten by one factor, through its parameters where it has some. */
import type { DesignDocument, DesignFile } from "../../../document/designFile.js";
import { namesOf } from "../../../document/designNumbers.js";
import { applyEdits, meaning, setNumber, setText } from "../../../document/edits.js";
import { readDesign } from "../../../document/read.js";
import type { TextEdit } from "../../../document/textEdit.js";
import { nodeAt } from "../../../document/tree.js";
import { dataOf } from "../../../document/treeData.js";
import type { Path } from "../../../instrument/finding.js";
import { namesIn, parseExpression } from "../../../instrument/formula/expression.js";
import type { Names } from "../../../instrument/formula/names.js";
import type { ResolvedNumber } from "../../../instrument/formula/resolvedNumber.js";
import type { Instrument } from "../../../instrument/model.js";
import { pathKey } from "../../../instrument/path.js";
import { placeInWords } from "../../../instrument/placeInWords.js";
import { t } from "../../../words/translation.js";
import type { Sensitivity } from "../../predict/sensitivity.js";
import { centsInWords, drawnDecimals, unitName } from "../../wording.js";
import { type DecimalStep, drawnAlike, onStep, type Scaled } from "./drawnAlike.js";
import { type LengthPowers, lengthPowers, type ScaledLiteral } from "./lengthPowers.js";

/** For quantities that are not lengths, such as an area among the parameters. */
const OTHER_DECIMALS = { mm: 2, in: 4 } as const;
/** A dimension of fewer steps of the drawing is drawn in tenths of them: one step would change its proportion by a tenth and more. */
const FEWEST_STEPS = 10;
/** Steps by which a formula may miss its exact value: a few rounded terms may add up. */
const ADDED_UP = 1.5;

/** Cents by which rounding moves a note: less is not mentioned. */
const WORTH_TELLING = 1;

export interface Redrawn {
  readonly edits: readonly TextEdit[];
  readonly remarks: readonly string[];
}

/**
 * Lengths are drawn in steps of `print.rounding`.
 * @param slopes how the notes follow each number of the design as it is, by `pathKey`; without them each takes its nearest step
 */
export function redrawEdits(
  file: DesignFile,
  document: DesignDocument,
  factor: number,
  slopes: ReadonlyMap<string, Pick<Sensitivity, "centsPerUnit">> = new Map(),
): Redrawn {
  const { numbers } = document.resolution;
  const names = namesOf(document);
  const context: Context = { document, powers: lengthPowers(numbers, names), factor, slopes };
  const drawnWith = (finer: ReadonlySet<string>) => {
    const { byPath, cents } = allEdits(numbers, context, finer);
    return { byPath, cents, outOfStep: stragglers(file, context, [...byPath.values()].flat(), finer) };
  };
  const first = drawnWith(new Set());
  // A formula may multiply what a number that it refers to is rounded by.
  const { byPath, cents, outOfStep } = first.outOfStep.length === 0 ? first : drawnWith(referredTo(numbers, names));
  const replaced = numbers.filter(({ path }) => outOfStep.includes(pathKey(path)));
  for (const number of replaced) {
    const { value, step } = exact(number, context);
    byPath.set(pathKey(number.path), setNumber(document, number.path, onStep(value, step), step.decimals));
  }
  // What an alias or a merge key brings in changes with its anchor, as intended.
  const follow = numbers.filter(({ path }) => context.powers.powers.get(pathKey(path)) && broughtIn(document, path));
  const edits = follow.reduce<readonly TextEdit[]>(
    (all, { path }) => meaning({ path }, all),
    [...byPath.values()].flat(),
  );
  return { edits, remarks: [...replacedRemarks(replaced, document), ...costRemarks(cents, document)] };
}

interface Context {
  readonly document: DesignDocument;
  readonly powers: LengthPowers;
  readonly factor: number;
  readonly slopes: ReadonlyMap<string, Pick<Sensitivity, "centsPerUnit">>;
}

/** Edits for every number that changes; none where what it refers to carries the change. */
function allEdits(
  numbers: readonly ResolvedNumber[],
  context: Context,
  finer: ReadonlySet<string>,
): { readonly byPath: Map<string, readonly TextEdit[]>; readonly cents: number } {
  const { document, powers, factor, slopes } = context;
  // An alias or merged value follows its anchor, which is a number of its own.
  const own = numbers.filter(({ path }) => powers.powers.get(pathKey(path)) && !broughtIn(document, path));
  const plain = own.filter(({ expression }) => expression === undefined);
  const scaled = plain.map((number): Scaled => {
    const { value, power, step } = exact(number, context, finer.has(pathKey(number.path)));
    // A unit is a smaller share of what has grown.
    const perUnit = slopes.get(pathKey(number.path))?.centsPerUnit ?? [];
    return {
      value,
      step,
      group: `${power} ${step.size} ${number.value}`,
      slopes: perUnit.map((slope) => (slope ?? 0) / factor ** power),
    };
  });
  const { values, cents } = drawnAlike(scaled);
  const formulas = own.flatMap(({ path, expression }) => {
    const literals = powers.literals.get(pathKey(path)) ?? [];
    if (expression === undefined || literals.length === 0) return [];
    const text = `=${scaleLiterals(expression, literals, context, finer.size > 0)}`;
    return [[pathKey(path), setText(document, path, text)] as const];
  });
  const numbersSet = plain.map(({ path }, i) => {
    const edits = setNumber(document, path, values[i] ?? Number.NaN, scaled[i]?.step.decimals ?? 0);
    return [pathKey(path), edits] as const;
  });
  return { byPath: new Map([...numbersSet, ...formulas]), cents };
}

/** A number's new value, and its drawing steps. */
function exact({ path, value }: ResolvedNumber, { document, powers, factor }: Context, isFiner = false) {
  const power = powers.powers.get(pathKey(path)) ?? 0;
  const grown = value * factor ** power;
  return { value: grown, power, step: stepOf(grown, power, document.resolution.instrument, isFiner) };
}

function stepOf(value: number, power: number, instrument: Instrument, isFiner: boolean): DecimalStep {
  if (power !== 1) {
    const decimals = OTHER_DECIMALS[unitName(instrument)];
    return { size: 10 ** -decimals, decimals };
  }
  const { rounding } = instrument;
  const decimals = drawnDecimals(instrument);
  return isFiner || Math.abs(value) < FEWEST_STEPS * rounding
    ? { size: rounding / 10, decimals: decimals + 1 }
    : { size: rounding, decimals };
}

/** Numbers that formulas refer to, as `pathKey`s. */
function referredTo(numbers: readonly ResolvedNumber[], names: Names): ReadonlySet<string> {
  return new Set(
    numbers.flatMap(({ expression }) => {
      const { ast } = parseExpression(expression ?? "");
      return ast === undefined
        ? []
        : namesIn(ast).flatMap(({ steps }) => {
            const path = names.pathOf(steps);
            return path === undefined ? [] : [pathKey(path)];
          });
    }),
  );
}

function broughtIn(document: DesignDocument, path: Path): boolean {
  return nodeAt(document.root, path)?.source !== undefined;
}

function scaleLiterals(
  expression: string,
  literals: readonly ScaledLiteral[],
  { document, factor }: Context,
  isFiner: boolean,
): string {
  return [...literals]
    .sort((a, b) => b.start - a.start)
    .reduce((text, { start, end, value, power }) => {
      const grown = value * factor ** power;
      const drawn = onStep(grown, stepOf(grown, power, document.resolution.instrument, isFiner));
      return text.slice(0, start) + drawn + text.slice(end);
    }, expression);
}

/** Numbers that are not what they should be after the edits, found by reading the result. `pathKey`s. */
function stragglers(
  file: DesignFile,
  context: Context,
  edits: readonly TextEdit[],
  finer: ReadonlySet<string>,
): readonly string[] {
  const { document } = context;
  const text = applyEdits(file.text, edits);
  const after = readDesign(text, file.syntax).documents[document.index]?.resolution.numbers ?? [];
  const found = new Map(after.map(({ path, value }) => [pathKey(path), value]));
  return document.resolution.numbers.flatMap((number) => {
    const key = pathKey(number.path);
    if (number.path[0] === "parameters") return [];
    const { value, power, step } = exact(number, context, finer.has(key));
    if (power === 0) return [];
    const off = Math.abs((found.get(key) ?? Number.NaN) - value);
    return off <= Math.max(ADDED_UP * step.size, Math.abs(value) * 1e-3) ? [] : [key];
  });
}

function replacedRemarks(replaced: readonly ResolvedNumber[], { root }: DesignDocument): readonly string[] {
  const expressions = replaced.filter(({ expression }) => expression !== undefined);
  if (expressions.length === 0) return [];
  const data = dataOf(root);
  const places = expressions.map(({ path }) => placeInWords(path, data)).join(", ");
  return [t`Expressions that do not grow in step with the instrument became plain numbers: ${places}.`];
}

/** Remarks on the drawing's rounding. */
function costRemarks(cents: number, { resolution: { instrument } }: DesignDocument): readonly string[] {
  if (cents < WORTH_TELLING) return [];
  const { rounding } = instrument;
  const [step, finer] = [rounding, rounding / 2].map((each) => `${Number(each.toPrecision(2))}`);
  return [
    t`Drawn in steps of ${step} ${unitName(instrument)}, which moves a note by up to ${centsInWords(cents)}: \`print: { rounding: ${finer} }\` draws finer.`,
  ];
}
