/** The language client and what it offers, once there is a design to work on. */
import { commands, type ExtensionContext, l10n, Uri, window } from "vscode";
import type { BaseLanguageClient as LanguageClient, LanguageClientOptions } from "vscode-languageclient";
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
import { setHome } from "./newFile.js";
import { newInstrument } from "./newInstrument.js";
import type { Platform } from "./platform.js";
import { type RekeyToArguments, rekeyTo } from "./rekeyTo.js";
import { Status } from "./status.js";

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

export async function start(context: ExtensionContext, platform: Platform): Promise<Running> {
  const output = window.createOutputChannel("Borewright", { log: true });
  setHome(platform.home);
  const client = createClient(context, platform, output);
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
    restart: () =>
      tried(async () => {
        if (client.isRunning()) await client.stop();
        await client.start();
      }),
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
  platform: Platform,
  outputChannel: LanguageClientOptions["outputChannel"],
): LanguageClient {
  // Our id is the section of the settings, so that `borewright.trace.server` is found.
  return platform.createClient(context, "borewright", "Borewright", {
    documentSelector: SERVED_SELECTOR,
    middleware: MIDDLEWARE,
    ...(outputChannel === undefined ? {} : { outputChannel }),
    initializationOptions: {
      commands: ["borewright.rekeyTo", "borewright.openBoreView", "borewright.newInstrument"],
      // The same words for the server; undefined where VS Code speaks English.
      translation: l10n.bundle,
      rulePages: Uri.joinPath(context.extensionUri, "docs", "rules").toString(),
    },
  });
}
