/** What a comparison is of: one design in two versions, or a design that is in one of them only. */
import type { LineIndex } from "../document/lineIndex.js";
import { t } from "../words/translation.js";
import type { Comparison } from "./compare.js";
import { leavesTolerance } from "./compare.js";
import { NOTHING, verdict } from "./verdict.js";

/** Where a version comes from. */
export interface Side {
  /** As the user named it: a file, or `REV:path`. */
  readonly file: string;
  readonly lines: LineIndex;
  /** The instrument's own name. */
  readonly name: string | undefined;
}

export type Compared =
  | { readonly kind: "both"; readonly old: Side; readonly next: Side; readonly comparison: Comparison }
  /** The same text in both, so not predicted anew. */
  | { readonly kind: "unchanged"; readonly old: Side; readonly next: Side }
  | { readonly kind: "added"; readonly next: Side }
  | { readonly kind: "removed"; readonly old: Side };

/** The instrument's name, or its file's. */
export function titleOf(compared: Compared): string {
  const side = compared.kind === "removed" ? compared.old : compared.next;
  return side.name?.trim() || side.file;
}

/** `A → B`, once where both are called alike. */
export function filesOf(compared: Compared): string {
  if (compared.kind === "removed") return compared.old.file;
  if (compared.kind === "added" || compared.old.file === compared.next.file) return compared.next.file;
  return `${compared.old.file} → ${compared.next.file}`;
}

export function verdictOf(compared: Compared): string {
  if (compared.kind === "added") return t("A new design.");
  if (compared.kind === "removed") return t("This design is gone.");
  return compared.kind === "unchanged" ? NOTHING : verdict(compared.comparison);
}

/** Those with changes, and how many have none. */
export function changedOf(compared: readonly Compared[]): {
  readonly changed: readonly Compared[];
  readonly quiet: number;
} {
  const changed = compared.filter((each) => verdictOf(each) !== NOTHING);
  return { changed, quiet: compared.length - changed.length };
}

/** `2 designs do not change.` */
export function quietText(quiet: number): string {
  return quiet === 1 ? t("1 design does not change.") : t`${quiet} designs do not change.`;
}

/** Exit status 1: a note left its tolerance. */
export function stops(compared: readonly Compared[]): boolean {
  return compared.some((each) => each.kind === "both" && leavesTolerance(each.comparison));
}
