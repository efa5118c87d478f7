/** The language client and what it offers, once there is a design to work on. */
import { commands, type ExtensionContext, Uri, window } from "vscode";
import {
  type LanguageClient,
  type LanguageClientOptions,
  type ServerOptions,
  TransportKind,
} from "vscode-languageclient/node";
import type { Makeable } from "../../server/src/protocol/making.js";
import { tellOlderTexts } from "./besideOlder.js";
import { BoreViews } from "./boreView/boreViews.js";
import { listenTo, surveyModel } from "./chooseFile.js";
import { compareWith, comparisonPages } from "./compareWith.js";
import { designEditor } from "./designEditor.js";
import { SERVED_SELECTOR } from "./designSelector.js";
import { make } from "./making/make.js";
import { sheetPages } from "./making/sheets.js";
import { MIDDLEWARE } from "./middleware.js";
import { newInstrument } from "./newInstrument.js";
import { type RekeyToArguments, rekeyTo } from "./rekeyTo.js";
import { Status } from "./status.js";
import { TellingClient } from "./tellingClient.js";

export interface Running {
  rekeyTo(given?: RekeyToArguments): Promise<void>;
  bringInTune(): Promise<void>;
  compareWith(): Promise<void>;
  restart(): Promise<void>;
  showBoreView(place?: unknown): Promise<void>;
  newInstrument(): Promise<void>;
  surveyModel(): Promise<void>;
  listenTo(): Promise<void>;
  make(what: Makeable): Promise<void>;
  showOutput(): void;
  stop(): Promise<void>;
}

export async function start(context: ExtensionContext): Promise<Running> {
  const output = window.createOutputChannel("Borewright", { log: true });
  const client = createClient(context, output);
  const status = new Status(client);
  const tried = async (how: () => Promise<void>) => {
    try {
      await how();
    } catch (error) {
      const reason = error instanceof Error ? error.message : String(error);
      output.error(reason);
      status.failed(reason);
    }
  };
  const boreViews = new BoreViews(context, client);
  context.subscriptions.push(output, status, boreViews, comparisonPages(), sheetPages());
  await tried(() => client.start());
  context.subscriptions.push(tellOlderTexts(client));
  return {
    rekeyTo: (given) => rekeyTo(client, given),
    bringInTune,
    compareWith: () => compareWith(client),
    restart: () => tried(() => client.restart()),
    showBoreView: (place) => boreViews.show(place),
    newInstrument: () => newInstrument(client),
    surveyModel: () => surveyModel(client),
    listenTo: () => listenTo(client),
    make: (what) => make(client, what),
    showOutput: () => output.show(),
    stop: () => client.stop(),
  };
}

/** The fix for the whole instrument, as the light bulb offers it, on the design in front. */
async function bringInTune(): Promise<void> {
  if ((await designEditor()) === undefined) return;
  await commands.executeCommand("editor.action.codeAction", { kind: "source.fixAll.borewright", apply: "first" });
}

function createClient(
  context: ExtensionContext,
  outputChannel: LanguageClientOptions["outputChannel"],
): LanguageClient {
  // The same program as on the command line: one engine in the package.
  const run = { module: context.asAbsolutePath("dist/cli.cjs"), args: ["serve"], transport: TransportKind.ipc };
  const server: ServerOptions = {
    run,
    debug: { ...run, options: { execArgv: ["--nolazy", "--inspect=6009"] } },
  };
  // Our id is the section of the settings, so that `borewright.trace.server` is found.
  return new TellingClient("borewright", "Borewright", server, {
    documentSelector: SERVED_SELECTOR,
    middleware: MIDDLEWARE,
    ...(outputChannel === undefined ? {} : { outputChannel }),
    initializationOptions: {
      commands: ["borewright.rekeyTo", "borewright.openBoreView", "borewright.newInstrument"],
      rulePages: Uri.joinPath(context.extensionUri, "docs", "rules").toString(),
    },
  });
}
