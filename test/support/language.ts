/** One version of a design as the editor's features see it, made from text in which `|` marks the cursor. */
import type { CodeAction, InitializeParams, InlayHint, Position, Range, WorkspaceEdit } from "vscode-languageserver";
import { TextDocument } from "vscode-languageserver-textdocument";
import { type ClientFeatures, clientFeatures } from "../../server/src/language/capabilities.js";
import { codeActions, resolveCodeAction } from "../../server/src/language/codeActions/index.js";
import type { DesignContext } from "../../server/src/language/designContext.js";
import { designContext } from "../../server/src/language/designs.js";
import { INITIAL_SETTINGS, type Settings } from "../../server/src/language/settings.js";

export const YAML_URI = "file:///workshop/whistle.bore.yaml";
export const JSON_URI = "file:///workshop/whistle.bore.json";

/** A client that can do everything. */
export const FULL_CLIENT: ClientFeatures = {
  ...clientFeatures({ capabilities: {} } as InitializeParams),
  markdownHover: true,
  markdownDocumentation: true,
  snippets: true,
  keepsIndentation: true,
  relatedInformation: true,
  codeDescription: true,
  versionedEdits: true,
  hierarchicalSymbols: true,
  commands: new Set(["borewright.rekeyTo"]),
  rulePages: "file:///rules/",
};

export interface Given {
  readonly uri?: string;
  readonly settings?: Settings;
  readonly client?: Partial<ClientFeatures>;
}

/** The design in `text`, without any cursor. */
export function designOf(text: string, { uri = YAML_URI, settings = INITIAL_SETTINGS, client }: Given = {}) {
  return designContext({ uri, version: 1, getText: () => text }, settings, { ...FULL_CLIENT, ...client });
}

export interface AtCursor {
  readonly context: DesignContext;
  readonly position: Position;
}

/** The design in `marked` without its `|`, and where that was. */
export function atCursor(marked: string, given: Given = {}): AtCursor {
  const offset = marked.indexOf("|");
  if (offset < 0 || offset !== marked.lastIndexOf("|")) throw new Error("the text needs exactly one cursor mark");
  const context = designOf(marked.slice(0, offset) + marked.slice(offset + 1), given);
  return { context, position: context.text.positionAt(offset) };
}

/** Puts the cursor mark into a design: before, or with `after` behind, the only or first place where `place` stands. */
export function marked(text: string, place: string, after = 0): string {
  const at = text.indexOf(place);
  if (at < 0) throw new Error(`${JSON.stringify(place)} is not in the text`);
  return `${text.slice(0, at + after)}|${text.slice(at + after)}`;
}

/** A hint as it is shown, its parts put together. */
export function hintText({ label }: Pick<InlayHint, "label">): string {
  return typeof label === "string" ? label : label.map(({ value }) => value).join("");
}

/** The text that a range covers. */
export function textIn({ text }: Pick<DesignContext, "text">, range: Range): string {
  return text.getText(range);
}

/** The whole text after an edit of the workspace, applied as editors do. */
export function applied(text: string, edit: WorkspaceEdit | undefined, uri = YAML_URI): string {
  const edits =
    edit?.documentChanges?.flatMap((change) =>
      "edits" in change && change.textDocument.uri === uri ? change.edits : [],
    ) ?? edit?.changes?.[uri];
  if (edits === undefined) throw new Error("no edit for this file");
  return TextDocument.applyEdits(TextDocument.create(uri, "", 0, text), edits as []);
}

/** An action with its edit, worked out for this one alone: all that a light bulb offers on a key takes seconds. */
export async function chosen(
  { context, position }: AtCursor,
  title: RegExp,
  only?: readonly string[],
): Promise<CodeAction> {
  const asking = { ...context, client: { ...context.client, resolvesCodeActions: true } };
  const range = { start: position, end: position };
  const offered = await codeActions(asking, { range, context: { diagnostics: [], ...(only && { only: [...only] }) } });
  return (await resolveCodeAction(asking, titled(offered, title))).action;
}

export function titled(actions: readonly CodeAction[], title: RegExp): CodeAction {
  const found = actions.find((action) => title.test(action.title));
  if (found === undefined) throw new Error(`no ${title} among: ${actions.map((action) => action.title).join("; ")}`);
  return found;
}
