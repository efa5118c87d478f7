/** Extract a number into a parameter; put a parameter's value where it is used. */

import { CodeActionKind } from "vscode-languageserver";
import type { Steps } from "../../acoustics/steps.js";
import type { DesignDocument } from "../../document/designFile.js";
import { numberAt } from "../../document/designNumbers.js";
import { insertEntry, meaning, setRaw, setText } from "../../document/edits.js";
import { pathAt } from "../../document/locate.js";
import { removeEntry } from "../../document/removal.js";
import type { TextEdit } from "../../document/textEdit.js";
import { nodeAt } from "../../document/tree.js";
import type { Path } from "../../instrument/finding.js";
import { isParameterName } from "../../instrument/formula/expression.js";
import { pathKey, samePath } from "../../instrument/path.js";
import { t } from "../../words/translation.js";
import { referenceAt } from "../symbols/references.js";
import { type ActionPlace, type OfferedAction, wanted, withEdits } from "./action.js";

const EXTRACT = CodeActionKind.RefactorExtract;
const INLINE = CodeActionKind.RefactorInline;

export function* parameterActions(place: ActionPlace, only: readonly string[] | undefined): Steps<OfferedAction[]> {
  return [
    ...(wanted(only, EXTRACT) ? yield* extractActions(place) : []),
    ...(wanted(only, INLINE) ? yield* inlineActions(place) : []),
  ];
}

function* extractActions(place: ActionPlace): Steps<OfferedAction[]> {
  const { document, selection } = place;
  const { path, on } = pathAt(document, selection.start);
  const node = nodeAt(document.root, path);
  const number = numberAt(document, path);
  if (on !== "value" || path[0] === "parameters" || node?.kind !== "scalar" || typeof node.value !== "number")
    return [];
  if (number === undefined || (number.quantity !== "length" && number.quantity !== "volume")) return [];
  if (selection.start < node.span.start || selection.end > node.span.end) return [];
  const name = freeName(document, path);
  const edits = [...setText(document, path, `=${name}`), ...newParameter(document, name, node.raw)];
  return yield* withEdits(place, { title: t`Extract ${node.raw} into the parameter ${name}`, kind: EXTRACT }, edits);
}

function newParameter(document: DesignDocument, name: string, raw: string): readonly TextEdit[] {
  if (nodeAt(document.root, ["parameters"]) !== undefined) return insertEntry(document, ["parameters"], name, raw);
  const key = document.syntax === "json" ? JSON.stringify(name) : name;
  return insertEntry(document, [], "parameters", `{ ${key}: ${raw} }`);
}

/** After the property, and the hole that has it: `wall`, `L1_at`; with a number where that is taken. */
function freeName({ root }: DesignDocument, path: Path): string {
  const property = String(path.at(-1));
  const name = nodeAt(root, [...path.slice(0, 2), "name"]);
  const owner =
    name?.kind === "scalar" && isParameterName(String(name.value))
      ? String(name.value)
      : typeof path[1] === "number"
        ? `${path[0]}${path[1] + 1}`
        : undefined;
  const wanted = owner === undefined ? property : `${owner}_${property}`;
  const parameters = nodeAt(root, ["parameters"]);
  const taken = new Set(parameters?.kind === "map" ? parameters.entries.map(({ key }) => key) : []);
  let free = wanted;
  for (let n = 2; taken.has(free); n++) free = `${wanted}${n}`;
  return free;
}

function* inlineActions(place: ActionPlace): Steps<OfferedAction[]> {
  const { document, selection } = place;
  const to = referenceAt(document, selection.start)?.to;
  if (to?.[0] !== "parameters") return [];
  const name = String(to[1]);
  const value = valueText(document, to);
  const uses = document.resolution.nameUses().filter((use) => samePath(use.to, to));
  if (value === undefined || uses.length === 0) return [];
  const byExpression = new Map<string, typeof uses>();
  for (const use of uses) byExpression.set(pathKey(use.path), [...(byExpression.get(pathKey(use.path)) ?? []), use]);
  const edits = [...byExpression.values()].flatMap((own) => inlined(document, own, value));
  if (edits.length < byExpression.size) return [];
  const title = t`Inline the parameter ${name}: put ${value.text} where it is used`;
  return yield* withEdits(place, { title, kind: INLINE }, [...edits, ...withoutParameter(document, to)]);
}

interface ValueText {
  /** A number, or what stands behind an expression's `=`. */
  readonly text: string;
  readonly isNumber: boolean;
}

function valueText(document: DesignDocument, to: Path): ValueText | undefined {
  const node = nodeAt(document.root, to);
  if (node?.kind !== "scalar") return undefined;
  if (typeof node.value === "number") return { text: node.raw, isNumber: true };
  const expression = numberAt(document, to)?.expression;
  return expression === undefined ? undefined : { text: expression, isNumber: false };
}

function inlined(
  document: DesignDocument,
  uses: readonly { readonly path: Path; readonly within: readonly [number, number] }[],
  { text, isNumber }: ValueText,
): readonly TextEdit[] {
  const [{ path }] = uses as [(typeof uses)[number]];
  const node = nodeAt(document.root, path);
  if (node?.kind !== "scalar" || typeof node.value !== "string") return [];
  const whole = node.value.trim().slice(1).trim();
  const [first] = uses as [(typeof uses)[number]];
  const isWhole = uses.length === 1 && whole === node.value.slice(...first.within);
  if (isWhole && isNumber) return meaning({ path, value: Number(text) }, setRaw(document, path, text));
  const put = isWhole || (isNumber && !text.startsWith("-")) ? text : `(${text})`;
  let written = "";
  let at = 0;
  for (const { within } of [...uses].sort((a, b) => a.within[0] - b.within[0])) {
    written += node.value.slice(at, within[0]) + put;
    at = within[1];
  }
  return setText(document, path, written + node.value.slice(at));
}

/** The last one takes the whole map with it. */
function withoutParameter(document: DesignDocument, to: Path): readonly TextEdit[] {
  const map = nodeAt(document.root, ["parameters"]);
  return removeEntry(document, map?.kind === "map" && map.entries.length === 1 ? ["parameters"] : to);
}
