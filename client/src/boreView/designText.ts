/** What a bore view does with its design's text and the editor that shows it. */
import {
  commands,
  Range,
  Selection,
  type TextDocument,
  TextEditorRevealType,
  ViewColumn,
  WorkspaceEdit,
  window,
  workspace,
} from "vscode";
import type { TrialAnswer } from "../../../server/src/protocol/boreView.js";
import type { TextKey } from "../../view/textKeys.js";

/** One edit, one step of undo; false where the text is not the one that it was worked out on. */
export async function written(document: TextDocument, { edits, refused, view }: TrialAnswer): Promise<boolean> {
  if (refused !== undefined || view?.version !== document.version || edits.length === 0) return false;
  const edit = new WorkspaceEdit();
  for (const { start, end, text } of edits)
    edit.replace(document.uri, new Range(document.positionAt(start), document.positionAt(end)), text);
  return workspace.applyEdit(edit);
}

/** Puts the cursor on a line, beside the view; the hands stay in the view. */
export async function reveal(document: TextDocument, line: number): Promise<void> {
  const shown =
    editorOf(document) ??
    (await window.showTextDocument(document, { viewColumn: ViewColumn.One, preserveFocus: true }));
  const start = document.lineAt(Math.min(line, document.lineCount - 1)).firstNonWhitespaceCharacterIndex;
  shown.selection = new Selection(line, start, line, start);
  shown.revealRange(new Range(line, 0, line, 0), TextEditorRevealType.InCenterIfOutsideViewport);
}

/** A new instrument: into this text where it is empty, else as a file of its own. */
export async function begin(document: TextDocument): Promise<void> {
  await inHand(document);
  await commands.executeCommand("borewright.newInstrument");
}

/** What a key in the view does to the text. True where the text's editor had to be focused for it. */
export async function carryOut(document: TextDocument, key: TextKey): Promise<boolean> {
  if (key === "save" && !document.isUntitled) {
    await document.save();
    return false;
  }
  // The editor undoes the last change of its active text.
  await inHand(document);
  await commands.executeCommand(key === "save" ? "workbench.action.files.save" : key);
  return true;
}

async function inHand(document: TextDocument): Promise<void> {
  await window.showTextDocument(document, { viewColumn: editorOf(document)?.viewColumn ?? ViewColumn.One });
}

function editorOf(document: TextDocument) {
  return window.visibleTextEditors.find((each) => each.document === document);
}
