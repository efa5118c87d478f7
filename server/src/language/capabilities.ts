/** What the client can do, in one flat list, and what the server then offers it. */
import {
  CodeActionKind,
  type InitializeParams,
  InsertTextMode,
  MarkupKind,
  type ServerCapabilities,
  TextDocumentSyncKind,
} from "vscode-languageserver";
import { readTranslation, type Translation } from "../words/translation.js";
import { SERVER_COMMANDS } from "./commands/names.js";
import { TOKENS_LEGEND } from "./tokensLegend.js";

export interface ClientFeatures {
  readonly pullDiagnostics: boolean;
  readonly refreshDiagnostics: boolean;
  readonly refreshInlayHints: boolean;
  /** Reports files that change on the disk, where asked to. */
  readonly watchesFiles: boolean;
  /** Resolves a hint once the pointer is on it. */
  readonly resolvesHints: boolean;
  readonly refreshCodeLens: boolean;
  /** Reports folders that are opened and closed. */
  readonly changesFolders: boolean;
  readonly readsConfiguration: boolean;
  readonly registersConfiguration: boolean;
  readonly markdownHover: boolean;
  readonly markdownDocumentation: boolean;
  readonly snippets: boolean;
  /** Leaves the indentation of inserted lines alone where told to. */
  readonly keepsIndentation: boolean;
  readonly resolvesCodeActions: boolean;
  /** Makes the edits that a command of the server asks for. */
  readonly appliesEdits: boolean;
  readonly relatedInformation: boolean;
  readonly codeDescription: boolean;
  readonly versionedEdits: boolean;
  /** Shows a change and asks before it is made, where an edit says that it should. */
  readonly previewsEdits: boolean;
  readonly hierarchicalSymbols: boolean;
  readonly progress: boolean;
  /** Goes to a place in a text, where the server asks it to. */
  readonly showsDocuments: boolean;
  /** Shows buttons with a message. */
  readonly showsButtons: boolean;
  /** Commands the client carries out itself; lenses and actions that need one are offered only where it does. */
  readonly commands: ReadonlySet<string>;
  /** Of all that the server says; English without. */
  readonly translation: Translation | undefined;
  /** Where the rules' pages stand, as a URI with a closing slash. */
  readonly rulePages: string | undefined;
}

/** What our own client tells the server at the start. Any other editor may send the same. */
export interface InitializationOptions {
  readonly commands?: readonly string[];
  readonly rulePages?: string;
  /** Sentences by their English, in the form of `@vscode/l10n`. */
  readonly translation?: Translation;
}

/** The parts of a hint that are worked out only on request. */
const RESOLVED_OF_HINTS = ["tooltip", "label.location", "label.command"];

/** Reads the `initialize` request, without trusting its shape. */
export function clientFeatures(params: InitializeParams, rulePages?: string): ClientFeatures {
  const { textDocument, workspace, window } = params.capabilities ?? {};
  const own = readOptions(params.initializationOptions);
  const actions = textDocument?.codeAction;
  return {
    pullDiagnostics: textDocument?.diagnostic !== undefined,
    refreshDiagnostics: workspace?.diagnostics?.refreshSupport === true,
    watchesFiles: workspace?.didChangeWatchedFiles?.dynamicRegistration === true,
    refreshInlayHints: workspace?.inlayHint?.refreshSupport === true,
    resolvesHints: RESOLVED_OF_HINTS.every((property) =>
      textDocument?.inlayHint?.resolveSupport?.properties?.includes(property),
    ),
    changesFolders: workspace?.workspaceFolders === true,
    refreshCodeLens: workspace?.codeLens?.refreshSupport === true,
    readsConfiguration: workspace?.configuration === true,
    registersConfiguration: workspace?.didChangeConfiguration?.dynamicRegistration === true,
    markdownHover: textDocument?.hover?.contentFormat?.includes(MarkupKind.Markdown) === true,
    markdownDocumentation:
      textDocument?.completion?.completionItem?.documentationFormat?.includes(MarkupKind.Markdown) === true,
    snippets: textDocument?.completion?.completionItem?.snippetSupport === true,
    keepsIndentation:
      textDocument?.completion?.completionItem?.insertTextModeSupport?.valueSet?.includes(InsertTextMode.asIs) === true,
    resolvesCodeActions: actions?.dataSupport === true && actions.resolveSupport?.properties?.includes("edit") === true,
    appliesEdits: workspace?.applyEdit === true,
    relatedInformation:
      (textDocument?.diagnostic ?? textDocument?.publishDiagnostics)?.relatedInformation === true ||
      textDocument?.publishDiagnostics?.relatedInformation === true,
    codeDescription:
      (textDocument?.diagnostic as { codeDescriptionSupport?: boolean } | undefined)?.codeDescriptionSupport === true ||
      textDocument?.publishDiagnostics?.codeDescriptionSupport === true,
    versionedEdits: workspace?.workspaceEdit?.documentChanges === true,
    previewsEdits:
      workspace?.workspaceEdit?.documentChanges === true &&
      workspace.workspaceEdit.changeAnnotationSupport !== undefined,
    hierarchicalSymbols: textDocument?.documentSymbol?.hierarchicalDocumentSymbolSupport === true,
    progress: window?.workDoneProgress === true,
    showsDocuments: window?.showDocument?.support === true,
    showsButtons: window?.showMessage !== undefined,
    commands: own.commands,
    translation: own.translation,
    rulePages: withSlash(own.rulePages ?? rulePages),
  };
}

/** Characters that open a list of suggestions: after a key in YAML and JSON, in a list, in a string, in an expression. */
const COMPLETION_TRIGGERS = [":", " ", "-", '"', "=", "{", ","];

/** What `editor.codeActionsOnSave` may name. */
export const FIX_ALL_KIND = `${CodeActionKind.SourceFixAll}.borewright`;

/** What is done about designs that are not open. */
export interface OfWorkspace {
  readonly checksWorkspace: boolean;
  readonly findsSymbols: boolean;
}

export function serverCapabilities(
  features: ClientFeatures,
  { checksWorkspace, findsSymbols }: OfWorkspace,
): ServerCapabilities {
  return {
    textDocumentSync: { openClose: true, change: TextDocumentSyncKind.Incremental },
    ...(features.pullDiagnostics
      ? {
          diagnosticProvider: {
            identifier: "borewright",
            interFileDependencies: false,
            workspaceDiagnostics: checksWorkspace,
          },
        }
      : {}),
    ...(features.changesFolders
      ? { workspace: { workspaceFolders: { supported: true, changeNotifications: true } } }
      : {}),
    ...(findsSymbols ? { workspaceSymbolProvider: true } : {}),
    hoverProvider: true,
    inlayHintProvider: { resolveProvider: features.resolvesHints },
    codeLensProvider: { resolveProvider: false },
    documentSymbolProvider: { label: "Borewright" },
    foldingRangeProvider: true,
    selectionRangeProvider: true,
    definitionProvider: true,
    referencesProvider: true,
    documentHighlightProvider: true,
    renameProvider: { prepareProvider: true },
    signatureHelpProvider: { triggerCharacters: ["("], retriggerCharacters: [","] },
    documentLinkProvider: { resolveProvider: false },
    semanticTokensProvider: { legend: TOKENS_LEGEND, full: true, range: true },
    documentFormattingProvider: true,
    documentRangeFormattingProvider: true,
    documentOnTypeFormattingProvider: { firstTriggerCharacter: "}", moreTriggerCharacter: ["\n"] },
    linkedEditingRangeProvider: true,
    completionProvider: { triggerCharacters: COMPLETION_TRIGGERS, resolveProvider: false },
    codeActionProvider: {
      codeActionKinds: [
        CodeActionKind.QuickFix,
        CodeActionKind.RefactorRewrite,
        CodeActionKind.RefactorExtract,
        CodeActionKind.RefactorInline,
        FIX_ALL_KIND,
      ],
      resolveProvider: features.resolvesCodeActions,
    },
    executeCommandProvider: { commands: SERVER_COMMANDS, workDoneProgress: true },
  };
}

function readOptions(given: unknown): Pick<ClientFeatures, "commands" | "rulePages" | "translation"> {
  const options = (typeof given === "object" && given !== null ? given : {}) as Record<string, unknown>;
  const commands = Array.isArray(options.commands) ? options.commands : [];
  return {
    commands: new Set(commands.filter((command): command is string => typeof command === "string")),
    translation: readTranslation(options.translation),
    rulePages: typeof options.rulePages === "string" ? options.rulePages : undefined,
  };
}

function withSlash(uri: string | undefined): string | undefined {
  return uri === undefined || uri.endsWith("/") ? uri : `${uri}/`;
}
