/** Two texts of a design, compared. */
import { DEFAULT_SETTINGS } from "../../server/src/design/settings.js";
import type { Syntax } from "../../server/src/document/designFile.js";
import { LineIndex } from "../../server/src/document/lineIndex.js";
import { type Comparison, compare } from "../../server/src/review/compare.js";
import type { Compared, Side } from "../../server/src/review/compared.js";
import { versionOf } from "../../server/src/review/version.js";
import { documentOf, fileOf } from "./designs.js";

function version(text: string, syntax: Syntax) {
  return versionOf(documentOf(fileOf(text, syntax)), DEFAULT_SETTINGS);
}

export function comparison(old: string, next: string, nextSyntax: Syntax = "yaml"): Comparison {
  return compare(version(old, "yaml"), version(next, nextSyntax));
}

export function compared(old: string, next: string, files = ["old.bore.yaml", "new.bore.yaml"]): Compared {
  const of = comparison(old, next);
  const side = (text: string, which: "old" | "next", file = ""): Side => ({
    file,
    lines: new LineIndex(text),
    name: of[which].analysis.instrument.name,
  });
  return { kind: "both", old: side(old, "old", files[0]), next: side(next, "next", files[1]), comparison: of };
}

/** `old → new` of each dimension that changed, by its name. */
export function dimensions({ dimensions: all }: Comparison): Record<string, string> {
  return Object.fromEntries(all.map(({ name, old, next }) => [name, `${old ?? "–"} → ${next ?? "–"}`]));
}

/** Things that came, went, were renamed or stand in another order. */
export function structure({ structure: all }: Comparison): readonly string[] {
  return all.map(({ kind, list, old, next }) => [kind, list, old, next].filter(Boolean).join(" "));
}
