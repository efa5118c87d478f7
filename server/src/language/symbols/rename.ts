/** Renames a parameter, a hole or a station everywhere at once, or says why it cannot. */
import type { Position, Range, WorkspaceEdit } from "vscode-languageserver";
import type { DesignDocument } from "../../document/designFile.js";
import { applyEdits, setText } from "../../document/edits.js";
import { readDesign } from "../../document/read.js";
import type { TextEdit } from "../../document/textEdit.js";
import { nodeAt } from "../../document/tree.js";
import type { Path } from "../../instrument/finding.js";
import { FUNCTIONS, isFormulaName, isParameterName } from "../../instrument/formula/expression.js";
import { t } from "../../words/translation.js";
import { type DesignContext, documentAt, rangeOf } from "../designContext.js";
import { workspaceEdit } from "../edits.js";
import { type Reference, referenceAt, referencesTo } from "./references.js";

/** Why something cannot be renamed, in words. */
export class CannotRename extends Error {}

/** What would be renamed. @throws CannotRename */
export function prepareRename(context: DesignContext, position: Position): { range: Range; placeholder: string } {
  const { reference, document, uses } = renamedAt(context, position);
  const [definition] = uses;
  if (definition?.as !== "definition")
    throw new CannotRename(t("this has no name in the design: give it one by `name`, then rename that"));
  const placeholder = document.text.slice(definition.span.start, definition.span.end);
  return { range: rangeOf(context, reference.span), placeholder };
}

/** The edits of every place. @throws CannotRename where they would do anything else than rename */
export function rename(context: DesignContext, position: Position, newName: string): WorkspaceEdit {
  const { document, uses } = renamedAt(context, position);
  const [definition, ...others] = uses;
  if (definition?.as !== "definition") throw new CannotRename(t("this has no name in the design"));
  const { to } = definition;
  const named = others.filter(({ as }) => as === "name");
  const name = newName.trim();
  refuse(document, to, name, named.length > 0);
  const edits = [
    ...definitionEdits(document, definition, name),
    ...named.map(({ span }): TextEdit => ({ span, text: name })),
  ];
  if (!keepsAll(context, document, edits))
    throw new CannotRename(t`\`${name}\` would mean something else in an expression; take another name`);
  return workspaceEdit(context, edits);
}

function renamedAt(context: DesignContext, position: Position) {
  const offset = context.text.offsetAt(position);
  const document = documentAt(context.file, offset);
  const reference = document && referenceAt(document, offset);
  if (document === undefined || reference === undefined || !isNamed(reference.to))
    throw new CannotRename(t("parameters, holes and stations have names; nothing here has one"));
  const uses = referencesTo(document, reference.to).filter(({ as }) => as !== "sign");
  return { document, reference, uses };
}

function isNamed(to: Path): boolean {
  return to.length === 2 && (to[0] === "parameters" || to[0] === "holes" || to[0] === "bore");
}

function refuse({ resolution, root }: DesignDocument, to: Path, name: string, isUsed: boolean): void {
  if (name === "") throw new CannotRename(t("a name needs at least one letter"));
  const isWritable = to[0] === "parameters" ? isParameterName(name) : !isUsed || isFormulaName(name);
  if (!isWritable || ((to[0] === "parameters" || isUsed) && Object.hasOwn(FUNCTIONS, name)))
    throw new CannotRename(
      t`\`${name}\` cannot be used in a formula: a name has letters, digits and _, and is not a function's`,
    );
  const parameters = nodeAt(root, ["parameters"]);
  const isTaken =
    to[0] === "parameters"
      ? parameters?.kind === "map" && parameters.entries.some(({ key }) => key === name && key !== to[1])
      : resolution.instrument.holes.some((hole, i) => hole.name === name && !(to[0] === "holes" && to[1] === i));
  if (isTaken) throw new CannotRename(t`there is a \`${name}\` already`);
}

function definitionEdits(document: DesignDocument, { span, to }: Reference, name: string): readonly TextEdit[] {
  return to[0] === "parameters" ? [{ span, text: name }] : setText(document, [...to, "name"], name);
}

/** Whether every number of every instrument is what it was, and no text reads less well. */
function keepsAll(context: DesignContext, document: DesignDocument, edits: readonly TextEdit[]): boolean {
  const { file } = context;
  const after = readDesign(applyEdits(file.text, edits), file.syntax, file);
  const numbers = ({ resolution }: DesignDocument) => resolution.numbers.map(({ value }) => value).join(" ");
  return (
    after.documents.length === file.documents.length &&
    after.documents.every((now, i) => {
      const before = file.documents[i];
      if (before === undefined) return false;
      if (before !== document && now.findings.length !== before.findings.length) return false;
      return numbers(now) === numbers(before) && now.findings.length <= before.findings.length;
    })
  );
}
