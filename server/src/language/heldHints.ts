/** The last good hints of each file, for the time while its text cannot be read: they stay where they were, marked as earlier. */
import type { InlayHint, Range } from "vscode-languageserver";
import { t } from "../words/translation.js";
import type { DesignContext } from "./designContext.js";

const MARK = " (before)";
const SAYS = "From the earlier text: the present one cannot be calculated.";

interface Held {
  readonly lines: readonly string[];
  readonly hints: readonly InlayHint[];
}

export class HeldHints {
  private readonly held = new Map<string, Held>();

  /** @param fresh all hints of the file @param range what of them is wanted */
  shown(design: DesignContext, fresh: readonly InlayHint[], range: Range): InlayHint[] {
    const lines = design.file.text.split(/\r\n|\r|\n/);
    const isBroken = design.file.documents.some(({ findings }) =>
      findings.some(({ severity }) => severity === "error"),
    );
    if (!isBroken) {
      this.held.set(design.uri, { lines, hints: fresh });
      return fresh.filter(within(range));
    }
    const taken = new Set(fresh.map(({ position }) => position.line));
    const before = this.held.get(design.uri);
    const kept = before === undefined ? [] : moved(before, lines).filter(({ position }) => !taken.has(position.line));
    return [...fresh, ...kept].filter(within(range));
  }

  forget(uri: string): void {
    this.held.delete(uri);
  }
}

/** Old hints where their lines are now: what lies before the change stays, what lies after it moves along. */
function moved({ lines: old, hints }: Held, lines: readonly string[]): readonly InlayHint[] {
  const shorter = Math.min(old.length, lines.length);
  let same = 0;
  while (same < shorter && old[same] === lines[same]) same++;
  let after = 0;
  while (after < shorter - same && old.at(-1 - after) === lines.at(-1 - after)) after++;
  return hints.flatMap((hint) => {
    const { line, character } = hint.position;
    const now = line < old.length - after ? line : line + lines.length - old.length;
    // Within the change a line that is still there keeps its hint.
    const text = now < (line < old.length - after ? lines.length - after : lines.length) ? lines[now] : undefined;
    if (text === undefined || text.trim() === "") return [];
    const label = typeof hint.label === "string" ? hint.label : hint.label.map(({ value }) => value).join("");
    const at = Math.min(character, text.trimEnd().length);
    // Without its links, which were of another text.
    const { data: _, ...rest } = hint;
    return [{ ...rest, label: label + t(MARK), tooltip: t(SAYS), position: { line: now, character: at } }];
  });
}

function within({ start, end }: Range) {
  return ({ position: { line, character } }: InlayHint) =>
    (line > start.line || (line === start.line && character >= start.character)) &&
    (line < end.line || (line === end.line && character <= end.character));
}
