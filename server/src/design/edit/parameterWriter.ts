/** Changes the value of a formula: by a parameter that only it uses, else by the formula's own last number. */
import { namesOf, numberAt } from "../../document/designNumbers.js";
import { applyEdits, setNumber } from "../../document/edits.js";
import { readDesign } from "../../document/read.js";
import type { Path } from "../../instrument/finding.js";
import { namesIn, parseExpression } from "../../instrument/formula/expression.js";
import type { ResolvedNumber } from "../../instrument/formula/resolvedNumber.js";
import { pathKey, samePath } from "../../instrument/path.js";
import { changeNumber } from "./numberEdit.js";
import type { NumberWriter } from "./numberWriter.js";

/** Size of a trial change of a parameter: finer than any drawing. */
const TRIAL_DECIMALS = 6;

export class ParameterWriter {
  /** Parameters behind values already written, by `pathKey`. */
  private readonly taken = new Set<string>();

  /** @param all paths of every value that is to be written */
  constructor(
    private readonly writer: NumberWriter,
    private readonly decimals: number,
    private readonly all: readonly Path[],
  ) {}

  /** @param value in the file's unit */
  write(path: Path, value: number): void {
    const present = numberAt(this.document, path);
    if (present?.expression === undefined) return;
    const own = this.ownParameters(present);
    // From here on the parameters behind this value stay, even if the value was right already.
    for (const { path: used } of own) this.taken.add(pathKey(used));
    const tolerance = 0.5 * 10 ** -this.decimals;
    if (Math.abs(present.value - value) < tolerance) return;
    for (const parameter of own) {
      const slope = this.slope(parameter, path);
      if (slope === 0) continue;
      const moved = parameter.value + (value - present.value) / slope;
      this.writer.setAll([{ path: parameter.path, value: moved }], this.decimals);
      break;
    }
    // What the parameter's decimals leave.
    if (numberAt(this.document, path) === undefined) return;
    this.writer.make(changeNumber(this.document, path, value, this.decimals));
  }

  private get document() {
    return this.writer.document;
  }

  /** Parameters of an expression that are plain numbers, still free, and used by nothing else; the last named first. */
  private ownParameters(number: ResolvedNumber): ResolvedNumber[] {
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
      !this.taken.has(pathKey(path)) &&
      numberAt(this.document, path)?.expression === undefined &&
      numbers.every(
        ({ path: user, expression }) =>
          this.all.some((each) => samePath(each, user)) || !used(expression).some((name) => samePath(name, path)),
      );
    return used(number.expression)
      .filter(free)
      .reverse()
      .flatMap((path) => numberAt(this.document, path) ?? []);
  }

  /** How far the value at `path` moves for one unit of a parameter, found by trying. */
  private slope(parameter: ResolvedNumber, path: Path): number {
    const before = numberAt(this.document, path)?.value ?? Number.NaN;
    const edits = setNumber(this.document, parameter.path, parameter.value + 1, TRIAL_DECIMALS);
    const trial = applyEdits(this.document.text, edits);
    const after = readDesign(trial, this.document.syntax).documents[this.document.index];
    const slope = (after === undefined ? Number.NaN : (numberAt(after, path)?.value ?? Number.NaN)) - before;
    return Number.isFinite(slope) ? slope : 0;
  }
}
