/** What the parts of completion share: the question, and a suggestion before it becomes the protocol's item. */
import type { CompletionItemKind } from "vscode-languageserver";
import type { DesignDocument } from "../../document/designFile.js";
import type { DesignContext } from "../designContext.js";
import type { Cursor } from "./cursor.js";
import type { Rendering } from "./render.js";

export interface Question {
  readonly context: DesignContext;
  readonly document: DesignDocument;
  readonly cursor: Cursor;
  readonly rendering: Rendering;
}

export interface Suggestion {
  readonly label: string;
  readonly kind: CompletionItemKind;
  readonly detail?: string | undefined;
  readonly documentation?: string | undefined;
  /** Text to insert; a snippet where the rendering has tab stops and `isSnippet` says so. */
  readonly text: string;
  readonly isSnippet: boolean;
  /** What the typed text is matched with; the label, if not said. */
  readonly filter?: string;
  /** Lower first; within a rank the order of making. */
  readonly rank?: number;
  /** Replaces less than the cursor's own word: from this offset on. */
  readonly start?: number;
  /** And up to this one. */
  readonly end?: number;
}
