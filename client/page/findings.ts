/** Findings: underlined in the text, and listed below it, where a click leads to the place. */
import { setDiagnostics } from "@codemirror/lint";
import { LSPPlugin } from "@codemirror/lsp-client";
import type { EditorView } from "@codemirror/view";
import type { Diagnostic } from "vscode-languageserver-protocol";

/** By the protocol's numbers. */
const SEVERITIES = { 1: "error", 2: "warning", 3: "info", 4: "hint" } as const;

export function showFindings(view: EditorView, findings: readonly Diagnostic[], list: HTMLElement): void {
  const plugin = LSPPlugin.get(view);
  if (plugin === null) return;
  const placed = findings.map(({ range, severity = 1, message }) => ({
    from: plugin.fromPosition(range.start),
    to: plugin.fromPosition(range.end),
    severity: SEVERITIES[severity],
    message: typeof message === "string" ? message : message.value,
  }));
  view.dispatch(setDiagnostics(view.state, placed));
  list.replaceChildren(
    ...placed.map(({ from, message }) => {
      const item = document.createElement("li");
      const button = document.createElement("button");
      button.textContent = `${view.state.doc.lineAt(from).number}: ${message}`;
      button.addEventListener("click", () => {
        view.dispatch({ selection: { anchor: from }, scrollIntoView: true });
        view.focus();
      });
      item.append(button);
      return item;
    }),
  );
}
