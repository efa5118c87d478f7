/** The editor's side: starts the language server, and offers the commands that need somebody to ask. */
import { commands, type ExtensionContext, Uri, window } from "vscode";
import {
  LanguageClient,
  type LanguageClientOptions,
  type ServerOptions,
  TransportKind,
} from "vscode-languageclient/node";
import { DESIGN_SELECTOR } from "./designSelector.js";
import { type RekeyToArguments, rekeyTo } from "./rekeyTo.js";
import { Status } from "./status.js";

let client: LanguageClient | undefined;

export async function activate(context: ExtensionContext): Promise<void> {
  const output = window.createOutputChannel("Borewright", { log: true });
  client = createClient(context, output);
  const running = client;
  const status = new Status(running);
  const start = async (how: () => Promise<void>) => {
    try {
      await how();
    } catch (error) {
      const reason = error instanceof Error ? error.message : String(error);
      output.error(reason);
      status.failed(reason);
    }
  };
  context.subscriptions.push(
    output,
    status,
    commands.registerCommand("borewright.rekeyTo", (given?: RekeyToArguments) => rekeyTo(running, given)),
    commands.registerCommand("borewright.restart", () => start(() => running.restart())),
    commands.registerCommand("borewright.showOutput", () => output.show()),
  );
  await start(() => running.start());
}

export function deactivate(): Promise<void> | undefined {
  return client?.stop();
}

function createClient(
  context: ExtensionContext,
  outputChannel: LanguageClientOptions["outputChannel"],
): LanguageClient {
  const module = context.asAbsolutePath("dist/server.cjs");
  const server: ServerOptions = {
    run: { module, transport: TransportKind.ipc },
    debug: { module, transport: TransportKind.ipc, options: { execArgv: ["--nolazy", "--inspect=6009"] } },
  };
  // Our id is the section of the settings, so that `borewright.trace.server` is found.
  return new LanguageClient("borewright", "Borewright", server, {
    documentSelector: DESIGN_SELECTOR,
    ...(outputChannel === undefined ? {} : { outputChannel }),
    initializationOptions: {
      commands: ["borewright.rekeyTo"],
      rulePages: Uri.joinPath(context.extensionUri, "docs", "rules").toString(),
    },
  });
}
