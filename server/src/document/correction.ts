/** What a finding says was meant, as edits of the text. */

import type { Finding } from "../instrument/finding.js";
import { t } from "../words/translation.js";
import type { DesignDocument } from "./designFile.js";
import { insertEntry, meaning, setRaw, setText } from "./edits.js";
import { lineEnd, lineStartOf } from "./insertion.js";
import { spanWithin } from "./place.js";
import { removeEntry } from "./removal.js";
import type { TextEdit } from "./textEdit.js";
import { type MapEntry, nodeAt } from "./tree.js";

export interface CorrectionFix {
  readonly title: string;
  readonly edits: readonly TextEdit[];
}

/** Undefined where the finding knows none. */
export function correctionFix(
  document: DesignDocument,
  { correction, path, within }: Pick<Finding, "correction" | "path" | "within">,
): CorrectionFix | undefined {
  const key = String(path.at(-1));
  switch (correction?.do) {
    case undefined:
      return undefined;
    case "rename":
      return { title: t`Change \`${key}\` to \`${correction.to}\``, edits: renameKey(document, path, correction.to) };
    case "write": {
      const { text } = correction;
      const edits = within === undefined ? setText(document, path, text) : writeWithin(document, path, within, text);
      return { title: t`Write \`${text}\``, edits };
    }
    case "set": {
      const { raw } = correction;
      if (nodeAt(document.root, path) !== undefined)
        return {
          title: t`Write \`${raw}\``,
          edits: meaning({ path, value: Number(raw) }, setRaw(document, path, raw)),
        };
      const edits =
        path.length === 1 ? insertFirst(document, key, raw) : insertEntry(document, path.slice(0, -1), key, raw);
      return { title: t`Add \`${key}: ${raw}\``, edits };
    }
    case "remove":
      return { title: t`Remove \`${key}\``, edits: removeEntry(document, path) };
  }
}

function renameKey(document: DesignDocument, path: Finding["path"], to: string): readonly TextEdit[] {
  const map = nodeAt(document.root, path.slice(0, -1));
  if (map?.kind !== "map" || map.source !== undefined || map.entries.some(({ key }) => key === to)) return [];
  const entry = map.entries.find(({ key, merged }) => key === path.at(-1) && !merged);
  if (entry === undefined) return [];
  const { start, end } = entry.keySpan;
  const [quote = ""] = /^["']/.exec(document.text.slice(start, end)) ?? [];
  const edits = [{ span: { start, end }, text: quote + to + quote }];
  return meaning({ path }, meaning({ path: [...path.slice(0, -1), to] }, edits));
}

function writeWithin(
  document: DesignDocument,
  path: Finding["path"],
  within: readonly [number, number],
  text: string,
): readonly TextEdit[] {
  const span = spanWithin(document, path, within);
  return span === undefined ? [] : meaning({ path }, [{ span, text }]);
}

/** Above all other properties of the design. */
function insertFirst(document: DesignDocument, key: string, raw: string): readonly TextEdit[] {
  const { root, text, syntax } = document;
  if (root?.kind !== "map") return [];
  const first = root.entries.reduce<MapEntry | undefined>(
    (before, entry) => (before === undefined || entry.keySpan.start < before.keySpan.start ? entry : before),
    undefined,
  );
  if (first === undefined || first.merged) return insertEntry(document, [], key, raw);
  const at = first.keySpan.start;
  const written = `${syntax === "json" ? JSON.stringify(key) : key}: ${raw}`;
  const lineStart = lineStartOf(text, at);
  const isOwnLine = text.slice(lineStart, at).trim() === "";
  const eol = lineEnd(text);
  const between = (root.flow ? "," : "") + (isOwnLine ? eol + text.slice(lineStart, at) : root.flow ? " " : eol);
  return meaning({ path: [key] }, [{ span: { start: at, end: at }, text: written + between }]);
}
