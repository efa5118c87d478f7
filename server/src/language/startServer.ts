/** Wires the features to a connection. Nothing is calculated here; every request goes through `guarded`. */
import {
  type Connection,
  DidChangeConfigurationNotification,
  type InitializeResult,
  TextDocuments,
} from "vscode-languageserver";
import { TextDocument } from "vscode-languageserver-textdocument";
import packageJson from "../../../package.json";
import { speak, type Translation } from "../words/translation.js";
import { registerBoreView } from "./boreView/register.js";
import { clientFeatures, serverCapabilities } from "./capabilities.js";
import { registerCommands } from "./commands/register.js";
import { inThisThread, type LongWork } from "./longWork/longWork.js";
import { registerNewInstrument } from "./newInstrument.js";
import { registerPull, registerPush } from "./registerDiagnostics.js";
import { registerFeatures } from "./registerFeatures.js";
import { registerFiles } from "./registerFiles.js";
import { registerMaking, registerSolid } from "./registerMaking.js";
import { registerNavigation } from "./registerNavigation.js";
import { registerRequests } from "./registerRequests.js";
import { Session } from "./session.js";
import { SETTINGS_SECTION } from "./settings.js";
import type { WorkspaceDesigns } from "./workspaceDesigns.js";

export interface ServerOptions {
  /** URI of the folder with the rules' pages, where the client does not say; without it codes have no link. */
  readonly rulePages?: string;
  /** Who does the long work; this thread by default. */
  readonly longWork?: LongWork;
  /** This program's texts in the language of a client that brings no translation of its own. */
  readonly translationFor?: (locale: string | undefined) => Translation | undefined;
  /** Designs that are not open; without it they are not checked. */
  readonly workspace?: WorkspaceDesigns;
}

/** Makes the connection listen. The session ends with the connection. */
export function startServer(connection: Connection, options: ServerOptions = {}): void {
  const texts = new TextDocuments(TextDocument);
  const session = new Session(connection, texts, options.longWork ?? inThisThread);
  const { workspace } = options;
  let checksWorkspace = false;
  connection.onInitialize((params): InitializeResult => {
    const client = clientFeatures(params, options.rulePages);
    session.begin(client);
    speak(client.translation ?? options.translationFor?.(params.locale));
    if (client.pullDiagnostics) registerPull(session);
    else registerPush(session);
    checksWorkspace = workspace?.register(session, params) ?? false;
    return {
      capabilities: serverCapabilities(client, { findsSymbols: workspace !== undefined, checksWorkspace }),
      serverInfo: { name: "Borewright", version: packageJson.version },
    };
  });
  connection.onInitialized(() => {
    if (checksWorkspace && session.client.watchesFiles) workspace?.watch(session);
    if (session.client.registersConfiguration) {
      void connection.client.register(DidChangeConfigurationNotification.type, { section: SETTINGS_SECTION });
    }
    void session.readSettings();
  });
  connection.onDidChangeConfiguration(({ settings }) => void session.readSettings(settings));
  registerFeatures(session);
  registerNavigation(session);
  registerCommands(session);
  registerRequests(session);
  registerBoreView(session);
  registerNewInstrument(session);
  registerFiles(session);
  registerMaking(session);
  registerSolid(session);
  texts.listen(connection);
  connection.listen();
}
