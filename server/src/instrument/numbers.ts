/** Finds every number of a design and works out those that are expressions. */
import { evaluate } from "./evaluate.js";
import { type ExpressionNode, namesIn, parseExpression } from "./expression.js";
import type { Finding, Path } from "./finding.js";
import type { Quantity, ResolvedNumber } from "./model.js";
import { Names } from "./names.js";
import { isMap, pathKey, pathText } from "./path.js";
import { INSTRUMENT_SCHEMA, type PropertySchema, schemaOfStep } from "./schema.js";

export interface Numbers {
  readonly list: readonly ResolvedNumber[];
  readonly findings: readonly Finding[];
  /** The number at a path in the file's own unit; percents as percent. Undefined where there is none. */
  at(path: Path): number | undefined;
  /**
   * The numbers as they would be with the one at `path` changed by `by`. With `follow`, expressions that refer to it are worked
   * out anew; without, every other number stays.
   */
  changed(path: Path, by: number, follow: boolean): Pick<Numbers, "at">;
}

/** One place where a number stands. */
interface Site {
  readonly path: Path;
  readonly quantity: Quantity;
  value: number | undefined;
  readonly expression?: string;
  readonly ast?: ExpressionNode;
  /** Length of what stands before the expression's text in the string value: blanks and `=`. */
  readonly offset: number;
}

/** Resolves every number of `data`, in the order of the file. Never throws; a bad number has a finding and no value. */
export function resolveNumbers(data: unknown): Numbers {
  const findings: Finding[] = [];
  const sites = new Map<string, Site>();
  collect(data, INSTRUMENT_SCHEMA, [], sites, findings);
  const names = new Names(data, sites);
  const resolver = new Resolver(sites, names, findings);
  resolver.run();
  const list = [...sites.values()].flatMap(({ path, quantity, value, expression }) =>
    value === undefined ? [] : [{ path, quantity, value, ...(expression === undefined ? {} : { expression }) }],
  );
  return {
    list,
    findings,
    at: (path) => sites.get(pathKey(path))?.value,
    changed: (path, by, follow) => {
      const values = resolver.changed(pathKey(path), by, follow);
      return { at: (other) => values.get(pathKey(other)) };
    },
  };
}

function collect(
  value: unknown,
  schema: PropertySchema,
  path: Path,
  sites: Map<string, Site>,
  findings: Finding[],
): void {
  if (Array.isArray(value)) {
    if (schema.items)
      for (const [i, item] of value.entries()) collect(item, schema.items, [...path, i], sites, findings);
  } else if (isMap(value)) {
    for (const [key, item] of Object.entries(value)) {
      const below = schemaOfStep(schema, key);
      if (below) collect(item, below, [...path, key], sites, findings);
    }
  } else if (schema["x-quantity"] !== undefined) {
    const site = siteOf(value, schema["x-quantity"], path, findings);
    if (site) sites.set(pathKey(path), site);
  }
}

function siteOf(value: unknown, quantity: Quantity, path: Path, findings: Finding[]): Site | undefined {
  const plain = { path, quantity, offset: 0 };
  if (typeof value === "number") return Number.isFinite(value) ? { ...plain, value } : undefined;
  if (typeof value !== "string") return undefined;
  const formula = /^\s*=/.exec(value);
  if (formula === null) {
    const percent = quantity === "percent" ? /^\s*([-+]?(?:\d+\.?\d*|\.\d+))\s*%?\s*$/.exec(value) : null;
    return percent === null ? undefined : { ...plain, value: Number(percent[1]) };
  }
  const offset = formula[0].length;
  const expression = value.slice(offset);
  const { ast, error } = parseExpression(expression);
  if (ast) return { ...plain, value: undefined, expression: expression.trim(), ast, offset };
  const within = [error.start + offset, error.end + offset] as const;
  findings.push({ code: "expression/syntax", severity: "error", message: error.message, path, within });
  return { ...plain, value: undefined, expression: expression.trim(), offset };
}

/** A site being worked out, and what it still waits for. */
interface Frame {
  readonly key: string;
  readonly needs: readonly { readonly key: string; readonly within: readonly [number, number] }[];
  next: number;
}

/** Works expressions out after those they refer to. Without recursion: a chain of thousands must not exhaust the stack. */
class Resolver {
  private readonly done = new Set<string>();
  private readonly frames: Frame[] = [];
  private readonly waiting = new Map<string, number>();
  /** In a ring, or referring to a name that there is not. */
  private readonly broken = new Set<string>();

  constructor(
    private readonly sites: ReadonlyMap<string, Site>,
    private readonly names: Names,
    private readonly findings: Finding[],
  ) {}

  run(): void {
    for (const key of this.sites.keys()) {
      this.open(key);
      while (this.frames.length > 0) this.step();
    }
  }

  /** By key, every value with that of `changed` moved by `by`; expressions are worked out in the order in which they were. */
  changed(changed: string, by: number, follow: boolean): ReadonlyMap<string, number | undefined> {
    const values = new Map([...this.sites].map(([key, { value }]) => [key, value] as const));
    const own = values.get(changed);
    values.set(changed, own === undefined ? undefined : own + by);
    if (!follow) return values;
    for (const key of this.done) {
      const site = this.sites.get(key);
      if (site?.ast === undefined || site.value === undefined || key === changed) continue;
      const { value } = evaluate(site.ast, (name) => {
        const { path } = this.names.find(name.steps);
        return path && values.get(pathKey(path));
      });
      values.set(key, value);
    }
    return values;
  }

  private open(key: string): void {
    const site = this.sites.get(key);
    if (site === undefined || this.done.has(key)) return;
    if (site.ast === undefined) {
      this.done.add(key);
      return;
    }
    this.waiting.set(key, this.frames.length);
    this.frames.push({ key, needs: this.needsOf(site, site.ast), next: 0 });
  }

  private needsOf(site: Site, ast: ExpressionNode): Frame["needs"] {
    return namesIn(ast).flatMap((name) => {
      const within = [name.start + site.offset, name.end + site.offset] as const;
      const found = this.names.find(name.steps);
      if (found.path) return [{ key: pathKey(found.path), within }];
      this.broken.add(pathKey(site.path));
      this.findings.push({
        code: "expression/unknown-name",
        severity: "error",
        message: found.problem,
        path: site.path,
        within,
      });
      return [];
    });
  }

  private step(): void {
    const frame = this.frames.at(-1);
    if (frame === undefined) return;
    const need = frame.needs[frame.next];
    if (need === undefined) {
      this.close(frame);
      return;
    }
    frame.next++;
    const started = this.waiting.get(need.key);
    if (started === undefined) this.open(need.key);
    else this.reportRing(this.frames.slice(started));
  }

  private close({ key }: Frame): void {
    this.frames.pop();
    this.waiting.delete(key);
    this.done.add(key);
    const site = this.sites.get(key);
    if (site?.ast === undefined || this.broken.has(key)) return;
    const { value, fault } = evaluate(site.ast, (name) => {
      const { path } = this.names.find(name.steps);
      return path && this.sites.get(pathKey(path))?.value;
    });
    site.value = value;
    if (fault === undefined) return;
    const within = [fault.start + site.offset, fault.end + site.offset] as const;
    this.findings.push({ code: fault.code, severity: "error", message: fault.message, path: site.path, within });
  }

  /** One finding for a ring, at its first member in the order of the file, the others as related places. */
  private reportRing(ring: readonly Frame[]): void {
    for (const { key } of ring) this.broken.add(key);
    const order = [...ring.keys()];
    const first = ring[0];
    const site = first && this.sites.get(first.key);
    if (first === undefined || site === undefined) return;
    const labels = [...ring, first].map(({ key }) => this.label(key));
    const message =
      ring.length === 1
        ? `${labels[0]} refers to itself. Write a number, or another name.`
        : `${ring.length} values refer to each other in a ring: ${labels.join(" → ")}. Give one of them a number.`;
    const within = first.needs[first.next - 1]?.within;
    const related = order.slice(1).flatMap((i) => {
      const path = this.sites.get(ring[i]?.key ?? "")?.path;
      return path ? [{ path, message: `${labels[i]} refers to ${labels[i + 1]}` }] : [];
    });
    this.findings.push({
      code: "expression/cycle",
      severity: "error",
      message,
      path: site.path,
      ...(within && { within }),
      related,
    });
  }

  private label(key: string): string {
    const path = this.sites.get(key)?.path ?? [];
    return path[0] === "parameters" ? String(path[1]) : pathText(path);
  }
}
