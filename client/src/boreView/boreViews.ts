/** The bore views that are open, one for each design file, beside its text. */
import {
  type Disposable,
  type ExtensionContext,
  l10n,
  type TextDocument,
  type TextEditor,
  Uri,
  ViewColumn,
  type WebviewPanel,
  window,
  workspace,
} from "vscode";
import type { BaseLanguageClient as LanguageClient } from "vscode-languageclient";
import type { ViewPlace } from "../../../server/src/protocol/boreView.js";
import { isDesign } from "../designSelector.js";
import { tell } from "../notify.js";
import { BoreView } from "./boreView.js";
import { proposedTexts } from "./showProposed.js";

const VIEW_TYPE = "borewright.boreView";

export class BoreViews implements Disposable {
  private readonly open = new Map<string, BoreView>();
  private readonly listeners: Disposable[];

  constructor(
    private readonly context: ExtensionContext,
    private readonly client: LanguageClient,
  ) {
    this.listeners = [
      proposedTexts(),
      workspace.onDidChangeTextDocument(({ document }) => this.of(document)?.refresh()),
      workspace.onDidSaveTextDocument((document) => this.saved(document)),
      window.onDidChangeTextEditorSelection(({ textEditor }) => this.follow(textEditor)),
      window.onDidChangeActiveTextEditor((editor) => editor && this.follow(editor)),
      window.registerWebviewPanelSerializer(VIEW_TYPE, {
        deserializeWebviewPanel: async (panel, state) => {
          const place = placeOf(state);
          if (place === undefined) panel.dispose();
          else this.take(panel, place);
        },
      }),
    ];
  }

  /** Opens the view of a place, or of the design in the active editor, and brings it to the front. */
  async show(given?: unknown): Promise<void> {
    const place = placeOf(given) ?? activePlace();
    if (place === undefined) {
      tell(l10n.t("Open a design (*.bore.yaml or *.bore.json) to see its bore view."));
      return;
    }
    const there = this.open.get(place.uri);
    if (there !== undefined) {
      there.show(place.documentIndex);
      return;
    }
    const document = await workspace.openTextDocument(Uri.parse(place.uri, true));
    const name = document.uri.path.split("/").at(-1) ?? "design";
    const column = { viewColumn: ViewColumn.Beside, preserveFocus: true };
    const roots = [Uri.joinPath(this.context.extensionUri, "dist")];
    const options = { enableScripts: true, localResourceRoots: roots };
    this.take(window.createWebviewPanel(VIEW_TYPE, l10n.t("Bore view: {0}", name), column, options), place);
  }

  dispose(): void {
    for (const listener of this.listeners) listener.dispose();
    for (const view of this.open.values()) view.dispose();
  }

  private take(panel: WebviewPanel, place: ViewPlace): void {
    const view = new BoreView(panel, this.context.extensionUri, this.client, place);
    this.open.set(place.uri, view);
    panel.onDidDispose(() => this.open.delete(view.uri.toString()));
  }

  /** A new design has become a file: its view goes on with that. */
  private saved({ uri }: TextDocument): void {
    const before = uri.with({ scheme: "untitled", authority: "" }).toString();
    const view = this.open.get(before);
    if (view === undefined || this.open.has(uri.toString())) return;
    this.open.delete(before);
    this.open.set(uri.toString(), view);
    view.moveTo(uri);
  }

  private of(document: TextDocument): BoreView | undefined {
    return this.open.get(document.uri.toString());
  }

  private follow(editor: TextEditor): void {
    this.of(editor.document)?.follow(editor.selection.active);
  }
}

function activePlace(): ViewPlace | undefined {
  const document = window.activeTextEditor?.document;
  return document && isDesign(document) ? { uri: document.uri.toString(), documentIndex: 0 } : undefined;
}

function placeOf(value: unknown): ViewPlace | undefined {
  if (value instanceof Uri) return { uri: value.toString(), documentIndex: 0 };
  const { uri, documentIndex } = (value ?? {}) as Partial<ViewPlace>;
  return typeof uri === "string"
    ? { uri, documentIndex: Number.isInteger(documentIndex) ? Number(documentIndex) : 0 }
    : undefined;
}
