/** What a name in an expression refers to: a parameter, a named hole or station, or any value by its place in the design. */

import { t } from "../../words/translation.js";
import { didYouMean, Suggestions } from "../didYouMean.js";
import type { Path } from "../finding.js";
import { own, pathKey, pathText, valueAt } from "../path.js";
import { placeInWords } from "../placeInWords.js";

export type FoundName =
  | { readonly path: Path; readonly problem?: undefined }
  | { readonly problem: string; readonly path?: undefined; readonly meant?: string | undefined };

/** Values that stand in for one that is not written. */
const STAND_INS: readonly { readonly missing: (path: Path) => boolean; readonly path: Path }[] = [
  { missing: (path) => path[0] === "holes" && path[2] === "chimney" && path.length === 3, path: ["wall"] },
  { missing: (path) => path[0] === "mouth" && path[2] === "chimney" && path.length === 3, path: ["wall"] },
];

export class Names {
  private readonly parts = new Map<string, Path>();
  private readonly suggestions = new Suggestions();

  constructor(
    private readonly data: unknown,
    /** Keyed by `pathKey`: the places where a number stands. */
    private readonly numbers: ReadonlyMap<string, { readonly path: Path }>,
  ) {
    // Holes first: a maker thinks of L1 as a hole even where a station is called so too. The first of a name counts.
    for (const list of ["holes", "bore"]) {
      const items = own(data, list);
      if (!Array.isArray(items)) continue;
      for (const [i, item] of items.entries()) {
        const name = own(item, "name");
        if (typeof name === "string" && !this.parts.has(name)) this.parts.set(name, [list, i]);
      }
    }
  }

  /**
   * The number that a name stands for: looked for among the parameters first, then the names of holes, of stations, then the design's
   * own keys. Undefined where there is none.
   */
  pathOf(steps: readonly [string, ...(string | number)[]]): Path | undefined {
    const path = this.placeOf(steps);
    if (this.numbers.has(pathKey(path))) return path;
    const standIn = STAND_INS.find(({ missing }) => missing(path));
    const isThere = standIn && this.numbers.has(pathKey(standIn.path));
    return isThere && valueAt(this.data, path.slice(0, -1)) !== undefined ? standIn.path : undefined;
  }

  /** The same, or why there is none, with what was most likely meant: the search for that is the expensive part. */
  find(steps: readonly [string, ...(string | number)[]]): FoundName {
    const path = this.pathOf(steps);
    if (path !== undefined) return { path };
    const isOfParameter = own(own(this.data, "parameters"), steps[0]) !== undefined;
    return isOfParameter
      ? { problem: t`\`${pathText(steps)}\` is not a number.` }
      : this.problem(steps, this.placeOf(steps));
  }

  private placeOf([first, ...rest]: readonly [string, ...(string | number)[]]): Path {
    if (own(own(this.data, "parameters"), first) !== undefined) return ["parameters", first, ...rest];
    return [...(this.parts.get(first) ?? [first]), ...rest];
  }

  /** The place as the maker would call it. */
  inWords(path: Path): string {
    return placeInWords(path, this.data);
  }

  private problem(steps: readonly [string, ...(string | number)[]], path: Path): FoundName {
    const written = pathText(steps);
    if (valueAt(this.data, path) !== undefined) {
      const inside = [...this.numbers.values()].find(
        ({ path: p }) => p.length > path.length && path.every((s, i) => p[i] === s),
      );
      const example = inside
        ? t` Say which of its numbers, such as \`${written}${tail(inside.path.slice(path.length))}\`.`
        : "";
      return { problem: t`\`${written}\` is not a number.${example}` };
    }
    const meant = this.suggestions.meant(written, this.candidates());
    return { problem: t`There is no value called \`${written}\`.${didYouMean(meant)}`, meant };
  }

  /** Every name that could have been meant. */
  *candidates(): Iterable<string> {
    for (const { path } of this.numbers.values()) {
      if (path[0] === "parameters") yield String(path[1]);
    }
    for (const { path } of this.numbers.values()) {
      if (path[0] !== "parameters") yield pathText(path);
    }
    for (const [name, part] of this.parts) {
      for (const property of ["at", "diameter", "length", "chimney", "raised", "undercut"]) {
        if (this.numbers.has(pathKey([...part, property]))) yield `${name}.${property}`;
      }
    }
  }
}

function tail(path: Path): string {
  return path.map((step) => (typeof step === "number" ? `[${step}]` : `.${step}`)).join("");
}
