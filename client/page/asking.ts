/** What the editor's client does not request by itself: hints and findings, a moment after each change. */
import { LSPPlugin } from "@codemirror/lsp-client";
import type { Text } from "@codemirror/state";
import { type EditorView, ViewPlugin, type ViewUpdate } from "@codemirror/view";
import type { Diagnostic, InlayHint } from "vscode-languageserver-protocol";

/** Milliseconds of quiet before. */
const QUIET = 50;

export interface Shows {
  hints(view: EditorView, hints: readonly InlayHint[]): void;
  findings(view: EditorView, findings: readonly Diagnostic[]): void;
}

export function asking(shows: Shows) {
  return ViewPlugin.define((view) => {
    let timer: number | undefined;
    const later = () => {
      clearTimeout(timer);
      timer = setTimeout(() => void ask(view, shows), QUIET);
    };
    later();
    return {
      update: ({ docChanged }: ViewUpdate) => {
        if (docChanged) later();
      },
      destroy: () => clearTimeout(timer),
    };
  });
}

async function ask(view: EditorView, shows: Shows): Promise<void> {
  const plugin = LSPPlugin.get(view);
  if (plugin === null) return;
  const { client, uri } = plugin;
  await client.initializing;
  client.sync();
  const { doc } = view.state;
  const textDocument = { uri };
  const range = { start: plugin.toPosition(0), end: plugin.toPosition(doc.length) };
  await Promise.all([
    answered<InlayHint[]>("textDocument/inlayHint", { textDocument, range }, (hints) => shows.hints(view, hints)),
    answered<{ items?: Diagnostic[] }>("textDocument/diagnostic", { textDocument }, ({ items = [] }) =>
      shows.findings(view, items),
    ),
  ]);

  async function answered<T>(method: string, params: object, show: (answer: T) => void): Promise<void> {
    // A request overtaken by typing is repeated by the change that overtook it.
    const answer = await client.request<object, T | null>(method, params).catch(() => null);
    if (answer !== null && isPresent(view, doc)) show(answer);
  }
}

function isPresent(view: EditorView, doc: Text): boolean {
  return view.dom.isConnected && view.state.doc === doc;
}
