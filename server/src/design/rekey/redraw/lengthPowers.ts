/**
 * Which numbers of a design grow when the instrument does, and how: the power of length each carries (1 a length, 3 a
 * volume, 0 a count or a ratio). Places in the design say so by their schema; parameters are found out from how they are
 * used, so that a parametric design can be redrawn through its parameters.
 */
import { type ExpressionNode, parseExpression } from "../../../instrument/formula/expression.js";
import type { Names } from "../../../instrument/formula/names.js";
import type { ResolvedNumber } from "../../../instrument/formula/resolvedNumber.js";
import { pathKey } from "../../../instrument/path.js";

export interface LengthPowers {
  /** Power of length of every number that scales, by `pathKey`. */
  readonly powers: ReadonlyMap<string, number>;
  /** By `pathKey` of an expression: the numbers written in it that must grow for it to grow, with their power. */
  readonly literals: ReadonlyMap<string, readonly ScaledLiteral[]>;
}

export interface ScaledLiteral {
  /** Offsets into the expression's text. */
  readonly start: number;
  readonly end: number;
  readonly value: number;
  readonly power: number;
}

/** Parts of a design whose lengths belong to the printer, the player or the workshop, and stay when the instrument grows. */
const NOT_THE_INSTRUMENT = new Set(["print", "hands", "refit", "stock"]);

export function lengthPowers(numbers: readonly ResolvedNumber[], names: Names): LengthPowers {
  return new Inference(numbers, names).run();
}

type Outcome = "fits" | "conflict" | "unknown";

class Inference {
  private readonly powers = new Map<string, number>();
  private readonly literals = new Map<string, ScaledLiteral[]>();
  private readonly open = new Map<string, ExpressionNode>();
  private found: ScaledLiteral[] = [];

  constructor(
    numbers: readonly ResolvedNumber[],
    private readonly names: Names,
  ) {
    for (const number of numbers) {
      const key = pathKey(number.path);
      if (number.path[0] !== "parameters") this.powers.set(key, powerOf(number));
      const ast = number.expression === undefined ? undefined : parseExpression(number.expression).ast;
      if (ast !== undefined) this.open.set(key, ast);
    }
  }

  run(): LengthPowers {
    while (this.pass(false) || this.pass(true));
    return { powers: this.powers, literals: this.literals };
  }

  /** Goes once over the expressions still open; true where one was settled. With `guess`, settles the first it can. */
  private pass(guess: boolean): boolean {
    let progress = false;
    for (const [key, ast] of this.open) {
      const power = this.powers.get(key);
      if (power === undefined) continue;
      this.found = [];
      const before = [...this.powers];
      const outcome = this.expect(ast, power, guess);
      if (outcome === "unknown") continue;
      this.open.delete(key);
      if (outcome === "fits") this.literals.set(key, this.found);
      else this.giveUp(before);
      progress = true;
      if (guess) break;
    }
    return progress;
  }

  /** What a contradiction implied about other names is discarded. */
  private giveUp(before: readonly (readonly [string, number])[]): void {
    this.powers.clear();
    for (const [name, power] of before) this.powers.set(name, power);
  }

  /** Asks `node` to carry `power`; names without a power yet take what is asked. */
  private expect(node: ExpressionNode, power: number, guess: boolean): Outcome {
    switch (node.kind) {
      case "number":
        if (power !== 0 && node.value !== 0)
          this.found.push({ start: node.start, end: node.end, value: node.value, power });
        return "fits";
      case "name":
        return this.expectName(node.steps, power);
      case "sign":
        return this.expect(node.operand, power, guess);
      case "call":
        if (node.name === "sqrt") return this.expectAll(node.arguments, 2 * power, guess);
        if (node.name === "round" && power !== 0) return "conflict";
        return this.expectAll(node.arguments, power, guess);
      case "binary":
        return this.expectBinary(node, power, guess);
    }
  }

  private expectName(steps: readonly [string, ...(string | number)[]], power: number): Outcome {
    const path = this.names.pathOf(steps);
    if (path === undefined) return "conflict";
    const key = pathKey(path);
    const known = this.powers.get(key);
    if (known === undefined) this.powers.set(key, power);
    return known === undefined || known === power ? "fits" : "conflict";
  }

  private expectAll(nodes: readonly ExpressionNode[], power: number, guess: boolean): Outcome {
    const outcomes = nodes.map((node) => this.expect(node, power, guess));
    if (outcomes.includes("conflict")) return "conflict";
    return outcomes.includes("unknown") ? "unknown" : "fits";
  }

  private expectBinary(node: Extract<ExpressionNode, { kind: "binary" }>, power: number, guess: boolean): Outcome {
    const { operator, left, right } = node;
    if (operator === "+" || operator === "-") return this.expectAll([left, right], power, guess);
    if (operator === "**")
      return right.kind === "number" && right.value !== 0
        ? this.expect(left, power / right.value, guess)
        : power === 0
          ? this.expectAll([left, right], 0, guess)
          : "conflict";
    const sign = operator === "*" ? 1 : -1;
    const [l, r] = [this.powerOfNode(left), this.powerOfNode(right)];
    if (l !== undefined) return both(this.expect(left, l, guess), this.expect(right, sign * (power - l), guess));
    if (r !== undefined) return both(this.expect(left, power - sign * r, guess), this.expect(right, r, guess));
    if (!guess) return "unknown";
    if (operator === "*" && sameName(left, right)) return this.expectAll([left, right], power / 2, guess);
    // Where neither factor is known, either may carry the length: the product grows the same. The first one does.
    return both(this.expect(left, power, guess), this.expect(right, 0, guess));
  }

  /** The power a node is known to carry; numbers written in a product are counts or ratios. */
  private powerOfNode(node: ExpressionNode): number | undefined {
    switch (node.kind) {
      case "number":
        return 0;
      case "name": {
        const path = this.names.pathOf(node.steps);
        return path && this.powers.get(pathKey(path));
      }
      case "sign":
        return this.powerOfNode(node.operand);
      case "call": {
        const inner = this.powerOfTerms(node.arguments);
        return node.name === "sqrt" && inner !== undefined ? inner / 2 : inner;
      }
      case "binary":
        return this.powerOfBinary(node);
    }
  }

  private powerOfBinary({ operator, left, right }: Extract<ExpressionNode, { kind: "binary" }>): number | undefined {
    if (operator === "+" || operator === "-") return this.powerOfTerms([left, right]);
    const l = this.powerOfNode(left);
    if (operator === "**") return l !== undefined && right.kind === "number" ? l * right.value : undefined;
    const r = this.powerOfNode(right);
    if (l === undefined || r === undefined) return undefined;
    return operator === "*" ? l + r : l - r;
  }

  /** Terms of a sum carry one power: the first that is more than a plain number tells. */
  private powerOfTerms(nodes: readonly ExpressionNode[]): number | undefined {
    const telling = nodes.filter((node) => node.kind !== "number");
    if (telling.length === 0) return 0;
    for (const node of telling) {
      const power = this.powerOfNode(node);
      if (power !== undefined) return power;
    }
    return undefined;
  }
}

function sameName(a: ExpressionNode, b: ExpressionNode): boolean {
  return a.kind === "name" && b.kind === "name" && a.steps.join() === b.steps.join();
}

function powerOf({ path, quantity }: ResolvedNumber): number {
  if (NOT_THE_INSTRUMENT.has(String(path[0]))) return 0;
  return quantity === "length" ? 1 : quantity === "volume" ? 3 : 0;
}

function both(a: Outcome, b: Outcome): Outcome {
  if (a === "conflict" || b === "conflict") return "conflict";
  return a === "unknown" || b === "unknown" ? "unknown" : "fits";
}
