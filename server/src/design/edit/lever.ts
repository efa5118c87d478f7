/**
 * What to change so that a number changes: itself, or, where it comes from a formula, the parameter behind it that moves the fewest
 * others. A formula is never silently replaced by a number.
 */
import type { DesignDocument } from "../../document/designFile.js";
import { namesOf, numberAt } from "../../document/designNumbers.js";
import type { TextEdit } from "../../document/textEdit.js";
import { dataOf } from "../../document/treeData.js";
import type { Path } from "../../instrument/finding.js";
import { evaluate } from "../../instrument/formula/evaluate.js";
import { type ExpressionNode, namesIn, parseExpression } from "../../instrument/formula/expression.js";
import type { Names } from "../../instrument/formula/names.js";
import type { ResolvedNumber } from "../../instrument/formula/resolvedNumber.js";
import { pathKey, samePath } from "../../instrument/path.js";
import { placeInWords } from "../../instrument/placeInWords.js";
import { t } from "../../words/translation.js";
import { drawnDecimals, toDrawn } from "../wording.js";
import { changeNumber } from "./numberEdit.js";

export interface Lever {
  /** The number whose text changes. */
  readonly path: Path;
  /** How much the number asked about grows per unit of the lever. */
  readonly perUnit: number;
  /** The other numbers that it moves. */
  readonly alsoMoves: readonly Path[];
}

export type FoundLever = Lever | { readonly refused: string };

/** Greatest depth of formulas that refer to formulas. */
const DEEPEST = 8;
/** A formula with a smaller slope than this does not follow its parameter. */
const LEAST_SLOPE = 1e-6;
/** How far a parameter is changed to see what follows, in its own unit: finer than any drawing. */
const TURN = 1e-6;
/** Digits of a slope that the rounding of such small differences leaves. */
const SURE_DIGITS = 7;

/** Undefined where there is no number at `path`. */
export function leverOf(document: DesignDocument, path: Path): FoundLever | undefined {
  return leversOf(document).of(path, DEEPEST);
}

/** One for each reading of a design: a view asks for the lever of every number that it draws. */
const LEVERS = new WeakMap<DesignDocument["resolution"], Levers>();

function leversOf(document: DesignDocument): Levers {
  const known = LEVERS.get(document.resolution);
  if (known !== undefined) return known;
  const levers = new Levers(document);
  LEVERS.set(document.resolution, levers);
  return levers;
}

/**
 * Edits that make the number at `path` the given one by its lever, in steps of the drawing.
 * @param value in the file's unit
 */
export function changeByLever(document: DesignDocument, path: Path, value: number): readonly TextEdit[] {
  const lever = leverOf(document, path);
  if (lever === undefined || "refused" in lever) return [];
  const { instrument } = document.resolution;
  const decimals = drawnDecimals(instrument);
  if (samePath(lever.path, path)) return changeNumber(document, path, toDrawn(value, instrument), decimals);
  const [present = Number.NaN, parameter = Number.NaN] = [path, lever.path].map(
    (each) => numberAt(document, each)?.value,
  );
  // A parameter that counts twice needs half the step.
  const finer = Math.max(0, Math.ceil(Math.log10(Math.abs(lever.perUnit))));
  return changeNumber(document, lever.path, parameter + (value - present) / lever.perUnit, decimals + finer);
}

class Levers {
  private readonly names: Names;
  private readonly users = new Map<string, Path[]>();
  private readonly numbers: readonly ResolvedNumber[];
  private readonly byPlace: ReadonlyMap<string, ResolvedNumber>;
  private readonly data: unknown;

  constructor(document: DesignDocument) {
    this.names = namesOf(document);
    this.numbers = document.resolution.numbers;
    this.byPlace = new Map(this.numbers.map((number) => [pathKey(number.path), number]));
    this.data = dataOf(document.root);
    for (const { path, expression } of this.numbers)
      for (const behind of this.namedIn(astOf(expression))) {
        const users = this.users.get(pathKey(behind));
        if (users === undefined) this.users.set(pathKey(behind), [path]);
        else users.push(path);
      }
  }

  of(path: Path, depth: number): FoundLever | undefined {
    const number = this.byPlace.get(pathKey(path));
    if (number === undefined) return undefined;
    const { expression } = number;
    if (expression === undefined) return { path, perUnit: 1, alsoMoves: this.followersOf(path) };
    const ast = astOf(expression);
    // `=lower + 13`: what is written here belongs to this number alone.
    if (ast === undefined || depth === 0 || endsInNumber(ast))
      return { path, perUnit: 1, alsoMoves: this.followersOf(path) };
    const said = t`${placeInWords(path, this.data)} comes from the formula =${expression.trim()}`;
    const behind = this.namedIn(ast).filter((each) => each[0] === "parameters");
    const levers = behind.flatMap((parameter) => {
      const lever = this.of(parameter, depth - 1);
      return lever === undefined || "refused" in lever ? [] : [[pathKey(lever.path), lever] as const];
    });
    const found = [...new Map(levers).values()]
      .map((lever) => ({ ...lever, perUnit: this.rate(path, lever.path) }))
      .filter(({ perUnit }) => Math.abs(perUnit) > LEAST_SLOPE);
    const fewest = Math.min(...found.map(({ alsoMoves }) => alsoMoves.length));
    const best = found.filter(({ alsoMoves }) => alsoMoves.length === fewest);
    const [only, other] = best;
    if (only === undefined)
      return {
        refused: t`${said}, which has no parameter to move: change the formula, or write a number in its place.`,
      };
    if (other !== undefined) {
      const list = best.map((lever) => `\`${lever.path.at(-1)}\``).join(t(" or "));
      return {
        refused: t`${said}: change ${list} in the text yourself: each of them moves equally many other values.`,
      };
    }
    return { ...only, alsoMoves: this.followersOf(only.path).filter((each) => !samePath(each, path)) };
  }

  /** What a formula refers to, each once. */
  private namedIn(ast: ExpressionNode | undefined): readonly Path[] {
    const found = new Map<string, Path>();
    for (const { steps } of ast === undefined ? [] : namesIn(ast)) {
      const path = this.names.pathOf(steps);
      if (path !== undefined) found.set(pathKey(path), path);
    }
    return [...found.values()];
  }

  /** All numbers that follow one, through formulas of formulas. */
  private followersOf(path: Path): readonly Path[] {
    const found = new Map<string, Path>();
    const open = [path];
    for (let from = open.pop(); from !== undefined; from = open.pop())
      for (const user of this.users.get(pathKey(from)) ?? []) {
        if (found.has(pathKey(user))) continue;
        found.set(pathKey(user), user);
        open.push(user);
      }
    return [...found.values()].filter(([part]) => part !== "parameters");
  }

  /** How much the number at `path` grows per unit of the one at `lever`, by whatever ways it follows that. */
  private rate(path: Path, lever: Path, known = new Map<string, number>()): number {
    if (samePath(path, lever)) return 1;
    const key = pathKey(path);
    const before = known.get(key);
    if (before !== undefined) return before;
    const ast = astOf(this.byPlace.get(key)?.expression);
    let rate = 0;
    for (const behind of this.namedIn(ast)) {
      const ofBehind = this.rate(behind, lever, known);
      if (ast !== undefined && ofBehind !== 0) rate += this.slope(ast, behind) * ofBehind;
    }
    known.set(key, rate);
    return rate;
  }

  /** How much a formula grows per unit of a number that it names, the others as they are. */
  private slope(ast: ExpressionNode, named: Path): number {
    const at = (by: number) =>
      evaluate(ast, ({ steps }) => {
        const path = this.names.pathOf(steps) ?? [];
        const value = this.byPlace.get(pathKey(path))?.value;
        return value !== undefined && samePath(path, named) ? value + by : value;
      }).value ?? Number.NaN;
    return Number(((at(TURN) - at(-TURN)) / (2 * TURN)).toPrecision(SURE_DIGITS));
  }
}

function astOf(expression: string | undefined): ExpressionNode | undefined {
  return expression === undefined ? undefined : parseExpression(expression).ast;
}

function endsInNumber(ast: ExpressionNode): boolean {
  return ast.kind === "binary" && (ast.operator === "+" || ast.operator === "-") && ast.right.kind === "number";
}
