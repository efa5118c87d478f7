/** Hints behind the text that they are about. */
import { LSPPlugin } from "@codemirror/lsp-client";
import { StateEffect, StateField } from "@codemirror/state";
import { Decoration, type DecorationSet, EditorView, WidgetType } from "@codemirror/view";
import type { InlayHint } from "vscode-languageserver-protocol";

class HintWidget extends WidgetType {
  constructor(
    private readonly text: string,
    private readonly tooltip: string,
  ) {
    super();
  }

  override eq(other: HintWidget): boolean {
    return other.text === this.text && other.tooltip === this.tooltip;
  }

  override toDOM(): HTMLElement {
    const hint = document.createElement("span");
    hint.className = "cm-hint";
    hint.textContent = this.text;
    hint.title = this.tooltip;
    return hint;
  }
}

const setHints = StateEffect.define<DecorationSet>();

/** Between two answers they move with the text. */
export const shownHints = StateField.define<DecorationSet>({
  create: () => Decoration.none,
  update: (before, { changes, effects }) => effects.find((effect) => effect.is(setHints))?.value ?? before.map(changes),
  provide: (field) => EditorView.decorations.from(field),
});

export function showHints(view: EditorView, hints: readonly InlayHint[]): void {
  const plugin = LSPPlugin.get(view);
  const placed = hints.map(({ label, tooltip, position }) => {
    const text = typeof label === "string" ? label : label.map(({ value }) => value).join("");
    const widget = new HintWidget(text, typeof tooltip === "string" ? tooltip : (tooltip?.value ?? ""));
    return Decoration.widget({ widget, side: 1 }).range(plugin?.fromPosition(position) ?? 0);
  });
  view.dispatch({ effects: setHints.of(Decoration.set(placed, true)) });
}
