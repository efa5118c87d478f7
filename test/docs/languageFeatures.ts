/** One row for each feature: what is asked of the server about the design below, and what of the answer the page shows. */
import type {
  CodeAction,
  CodeLens,
  CompletionItem,
  Diagnostic,
  DocumentSymbol,
  FoldingRange,
  Hover,
  InlayHint,
  InlayHintLabelPart,
  Location,
  SignatureHelp,
  TextEdit,
  WorkspaceEdit,
  WorkspaceSymbol,
} from "vscode-languageserver/node";

/** A whistle of the harbour workshop with a parameter nobody uses and a misspelt property; out of tune, as its author has not printed it yet. */
export const DESIGN = `borewright: 1
name: Slip whistle
family: duct
key: D5
parameters:
  wall: 1
  gap: 20
  spare: 3
wall: =wall
mouth: { window: { width: 8, cutUp: 4 } }
bore: [{ at: 0, diameter: 13 }, { at: 255, diameter: 13 }]
holes:
  - { name: L1, at: 110, diameter: 6 }
  - { name: L2, at: =110 + gap, diameter: "=max(6, 7)" }
fingerings:
  - { degree: 1, holes: ●● }
  - { degree: 5, holes: ●○ }
  - { degree: 7, holes: ○○ }
rules: { parameter/unused: warning }
tempered: equal
`;

export interface Row {
  readonly feature: string;
  readonly method: string;
  /** The capability that announces it; none for what comes with another. */
  readonly capability?: string;
  /** Where in the design, as a reader finds it: the cursor stands before the last of these characters. */
  readonly at?: string;
  readonly params: (position: { line: number; character: number }) => object;
  readonly answer: (result: never) => string;
}

const ALL = { start: { line: 0, character: 0 }, end: { line: 99, character: 0 } };
const nothing = () => ({});
const position = (at: object) => ({ position: at });
const lines = (found: readonly { range: { start: { line: number } } }[]) =>
  `line ${found.map(({ range }) => range.start.line + 1).join(" and ")}`;
const changes = ({ documentChanges = [], changes: plain = {} }: WorkspaceEdit) =>
  [
    ...documentChanges.flatMap((each) => ("edits" in each ? each.edits : [])),
    ...Object.values(plain).flat(),
  ] as TextEdit[];
const hintText = ({ label }: InlayHint) =>
  typeof label === "string" ? label : label.map(({ value }: InlayHintLabelPart) => value).join("");
const named = (symbols: readonly DocumentSymbol[]): string =>
  symbols.map(({ name, children = [] }) => (children.length === 0 ? name : `${name} (${named(children)})`)).join(", ");
const firstLine = ({ contents }: Hover) => (contents as { value: string }).value.split("\n")[0] ?? "";

export const ROWS: readonly Row[] = [
  {
    feature: "Findings",
    method: "textDocument/diagnostic",
    capability: "diagnosticProvider",
    params: nothing,
    answer: ({ items }: { items: Diagnostic[] }) =>
      items.map(({ code, message }) => `\`${code}\` ${message}`).join(" · "),
  },
  {
    feature: "Findings of files that are not open",
    method: "workspace/diagnostic",
    params: () => ({ previousResultIds: [] }),
    answer: ({ items }: { items: { uri: string; items: Diagnostic[] }[] }) =>
      items
        .map((file) => `${file.uri.split("/").at(-1)}: ${file.items.map(({ code }) => code).join(", ")}`)
        .join(" · "),
  },
  {
    feature: "Hover on a number",
    method: "textDocument/hover",
    capability: "hoverProvider",
    at: "name: L1, at: 1",
    params: position,
    answer: firstLine,
  },
  {
    feature: "Hover on a fingering",
    method: "textDocument/hover",
    at: "degree: 5",
    params: position,
    answer: firstLine,
  },
  {
    feature: "Hints",
    method: "textDocument/inlayHint",
    capability: "inlayHintProvider",
    params: () => ({ range: ALL }),
    answer: (hints: InlayHint[]) => hints.map(hintText).join(" · "),
  },
  {
    feature: "Lenses",
    method: "textDocument/codeLens",
    capability: "codeLensProvider",
    params: nothing,
    answer: (lenses: CodeLens[]) => lenses.map(({ command }) => command?.title).join(" · "),
  },
  {
    feature: "Quick fixes and refactorings",
    method: "textDocument/codeAction",
    capability: "codeActionProvider",
    at: "name: L1, at: 1",
    params: (at) => ({ range: { start: at, end: at }, context: { diagnostics: [] } }),
    answer: (actions: CodeAction[]) => actions.map(({ title, kind }) => `${title} (${kind})`).join(" · "),
  },
  {
    feature: "Completion",
    method: "textDocument/completion",
    capability: "completionProvider",
    at: "=110 + g",
    params: position,
    answer: (items: CompletionItem[]) => items.map(({ label }) => label).join(", "),
  },
  {
    feature: "Help with a function's arguments",
    method: "textDocument/signatureHelp",
    capability: "signatureHelpProvider",
    at: "=max(6",
    params: position,
    answer: (help: SignatureHelp | null) => help?.signatures[0]?.label ?? "",
  },
  {
    feature: "Definition",
    method: "textDocument/definition",
    capability: "definitionProvider",
    at: "=110 + g",
    params: position,
    answer: (found: Location | Location[]) => lines([found].flat()),
  },
  {
    feature: "References",
    method: "textDocument/references",
    capability: "referencesProvider",
    at: "  w",
    params: (at) => ({ position: at, context: { includeDeclaration: true } }),
    answer: (found: Location[]) => lines(found),
  },
  {
    feature: "Highlights of a name",
    method: "textDocument/documentHighlight",
    capability: "documentHighlightProvider",
    at: "  w",
    params: position,
    answer: (found: Location[]) => lines(found),
  },
  {
    feature: "May this be renamed?",
    method: "textDocument/prepareRename",
    at: "  g",
    params: position,
    answer: (found: { placeholder: string }) => `\`${found.placeholder}\``,
  },
  {
    feature: "Rename",
    method: "textDocument/rename",
    capability: "renameProvider",
    at: "  g",
    params: (at) => ({ position: at, newName: "span" }),
    answer: (edit: WorkspaceEdit) =>
      changes(edit)
        .map(({ range, newText }) => `line ${range.start.line + 1}: \`${newText}\``)
        .join(" · "),
  },
  {
    feature: "A name and its uses, edited at once",
    method: "textDocument/linkedEditingRange",
    capability: "linkedEditingRangeProvider",
    at: "  g",
    params: position,
    answer: ({ ranges }: { ranges: { start: { line: number } }[] }) => lines(ranges.map((range) => ({ range }))),
  },
  {
    feature: "Outline",
    method: "textDocument/documentSymbol",
    capability: "documentSymbolProvider",
    params: nothing,
    answer: named,
  },
  {
    feature: "Symbols of the workspace",
    method: "workspace/symbol",
    capability: "workspaceSymbolProvider",
    params: () => ({ query: "L1" }),
    answer: (found: WorkspaceSymbol[]) =>
      found.map(({ name, location }) => `${name} in ${location.uri.split("/").at(-1)}`).join(" · "),
  },
  {
    feature: "Folding",
    method: "textDocument/foldingRange",
    capability: "foldingRangeProvider",
    params: nothing,
    answer: (found: FoldingRange[]) =>
      `lines ${found.map(({ startLine, endLine }) => `${startLine + 1}–${endLine + 1}`).join(", ")}`,
  },
  {
    feature: "Growing selections",
    method: "textDocument/selectionRange",
    capability: "selectionRangeProvider",
    at: "=110 + g",
    params: (at) => ({ positions: [at] }),
    answer: ([range]: { parent?: unknown }[]) => {
      let steps = 0;
      for (let each: unknown = range; each; each = (each as { parent?: unknown }).parent) steps++;
      return `${steps} steps, from the name to the whole text`;
    },
  },
  {
    feature: "Colours by meaning",
    method: "textDocument/semanticTokens/full",
    capability: "semanticTokensProvider",
    params: nothing,
    answer: ({ data }: { data: number[] }) => `${data.length / 5} tokens`,
  },
  {
    feature: "The same of what is seen",
    method: "textDocument/semanticTokens/range",
    params: () => ({ range: { start: { line: 15, character: 0 }, end: { line: 16, character: 99 } } }),
    answer: ({ data }: { data: number[] }) => `${data.length / 5} tokens`,
  },
  {
    feature: "Links",
    method: "textDocument/documentLink",
    capability: "documentLinkProvider",
    params: nothing,
    answer: (links: { target?: string }[]) => links.map(({ target }) => target).join(" · "),
  },
  {
    feature: "Formatting: columns",
    method: "textDocument/formatting",
    capability: "documentFormattingProvider",
    params: () => ({ options: { tabSize: 2, insertSpaces: true } }),
    answer: (edits: TextEdit[]) => `edits of blanks: ${edits.length}`,
  },
  {
    feature: "The same of a selection",
    method: "textDocument/rangeFormatting",
    capability: "documentRangeFormattingProvider",
    params: () => ({
      range: { start: { line: 13, character: 0 }, end: { line: 14, character: 0 } },
      options: { tabSize: 2, insertSpaces: true },
    }),
    answer: (edits: TextEdit[]) => `edits of blanks: ${edits.length}`,
  },
  {
    feature: "The same while typing",
    method: "textDocument/onTypeFormatting",
    capability: "documentOnTypeFormattingProvider",
    at: '7)" }',
    params: (at) => ({
      position: { ...at, character: at.character + 1 },
      ch: "}",
      options: { tabSize: 2, insertSpaces: true },
    }),
    answer: (edits: TextEdit[]) => `edits of blanks: ${edits.length}`,
  },
];

/** What comes without being asked, or is not about a place in a text. */
export const OTHERS: Readonly<Record<string, string>> = {
  textDocumentSync: "`didOpen`, `didChange` (by ranges), `didClose`",
  executeCommandProvider: "`workspace/executeCommand`: what hints, lenses and actions do",
  workspace: "`workspace/didChangeWorkspaceFolders`",
};
