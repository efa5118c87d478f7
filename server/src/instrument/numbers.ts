/** Finds every number of a design and works out those that are expressions. */

import type { Finding, Path } from "./finding.js";
import { namesIn, parseExpression } from "./formula/expression.js";
import { Names } from "./formula/names.js";
import type { Quantity, ResolvedNumber } from "./formula/resolvedNumber.js";
import { isMap, pathKey } from "./path.js";
import { Resolver, type Site } from "./resolver.js";
import { INSTRUMENT_SCHEMA, type PropertySchema, schemaOfStep } from "./schema.js";

/** A name in an expression, and what it stands for. */
export interface NameUse {
  /** Of the expression. */
  readonly path: Path;
  /** Offsets into the text value, `=` included. */
  readonly within: readonly [number, number];
  readonly steps: readonly (string | number)[];
  /** The number it stands for. */
  readonly to: Path;
}

export interface Numbers {
  readonly list: readonly ResolvedNumber[];
  readonly findings: readonly Finding[];
  /** The number at a path in the file's own unit; percents as percent. Undefined where there is none. */
  at(path: Path): number | undefined;
  /** Every name that an expression uses and the design has, in the order of the file. */
  nameUses(): readonly NameUse[];
  /**
   * The numbers as they would be with the one at `path` changed by `by`. With `follow`, expressions that refer to it are worked
   * out again; without, every other number stays.
   */
  changed(path: Path, by: number, follow: boolean): Pick<Numbers, "at">;
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
    nameUses: () => [...sites.values()].flatMap((site) => nameUsesIn(site, names)),
    changed: (path, by, follow) => {
      const values = resolver.changed(pathKey(path), by, follow);
      return { at: (other) => values.get(pathKey(other)) };
    },
  };
}

function nameUsesIn({ path, ast, offset }: Site, names: Names): readonly NameUse[] {
  if (ast === undefined) return [];
  return namesIn(ast).flatMap(({ steps, start, end }): NameUse[] => {
    const to = names.pathOf(steps);
    return to === undefined ? [] : [{ path, within: [start + offset, end + offset], steps, to }];
  });
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
