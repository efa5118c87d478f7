/** What a code action needs to be offered, and what it carries so that its edit can be worked out once it is chosen. */
import type { CodeAction, Diagnostic } from "vscode-languageserver";
import type { Steps } from "../../acoustics/steps.js";
import { checkedFixSteps } from "../../design/fix/checkedFix.js";
import type { DesignDocument, PlacedFinding } from "../../document/designFile.js";
import type { Span } from "../../document/span.js";
import type { TextEdit } from "../../document/textEdit.js";
import { type DesignContext, rangeOf } from "../designContext.js";
import { workspaceEdit } from "../edits.js";
import type { ChangeWork } from "../longWork/job.js";

export interface ActionPlace {
  readonly context: DesignContext;
  readonly document: DesignDocument;
  /** What is selected; a cursor has no length. */
  readonly selection: Span;
  /** Those that the client says are at the place. */
  readonly diagnostics: readonly Diagnostic[];
  readonly shouldStop: () => boolean;
}

/** An action with its edit still to be worked out. */
export interface OfferedAction {
  readonly action: CodeAction;
  /** Plain JSON that says which edit it is; absent where the action has it already. */
  readonly recipe?: Recipe;
}

export interface Recipe {
  readonly uri: string;
  /** The text it was offered for. */
  readonly textName: string;
  readonly documentIndex: number;
  readonly work: ChangeWork;
  /** Whether a client that can shows the change and asks before it is made. */
  readonly preview: boolean;
}

/** The action with ready edits: nothing where they would do anything else than intended. */
export function* withEdits(
  { context, document }: ActionPlace,
  action: CodeAction,
  edits: readonly TextEdit[],
): Steps<OfferedAction[]> {
  const fix = yield* checkedFixSteps(context.file, document, { title: action.title, edits });
  if (fix === undefined) return [];
  return [{ action: { ...action, title: fix.title, edit: workspaceEdit(context, fix.edits) } }];
}

/** What is offered for each, in their order. */
export function* offeredForEach<T>(
  items: Iterable<T>,
  each: (item: T) => Steps<OfferedAction[]>,
): Steps<OfferedAction[]> {
  const offered: OfferedAction[] = [];
  for (const item of items) offered.push(...(yield* each(item)));
  return offered;
}

/** Whether the client asked for this kind: a kind stands for itself and everything below it. */
export function wanted(only: readonly string[] | undefined, kind: string): boolean {
  return only === undefined || only.some((asked) => asked === "" || kind === asked || kind.startsWith(`${asked}.`));
}

/** The client's own diagnostics that show the finding, as an action names what it puts right. */
export function linkedTo(
  { context, diagnostics }: ActionPlace,
  { code, span }: PlacedFinding,
): Pick<CodeAction, "diagnostics"> {
  const { start } = rangeOf(context, span);
  const linked = diagnostics.filter(
    (each) =>
      each.code === code && each.range.start.line === start.line && each.range.start.character === start.character,
  );
  return linked.length === 0 ? {} : { diagnostics: linked };
}

export function touches(span: Span, selection: Span): boolean {
  return selection.start <= span.end && selection.end >= span.start;
}

/** A whole entry of the design, such as `measured`: its name and what it holds. */
export function sectionSpan({ document: { root, text } }: ActionPlace, section: string): Span | undefined {
  const entry = root?.kind === "map" ? root.entries.find(({ key, merged }) => key === section && !merged) : undefined;
  if (entry === undefined) return undefined;
  const { start } = entry.keySpan;
  const end = Math.max(entry.keySpan.end, entry.value.span.end);
  return { start, end: start + text.slice(start, end).trimEnd().length };
}
