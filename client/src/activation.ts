/**
 * The editor's side. It is loaded with any YAML file, since an unsaved one may become a design; the language
 * server, and all that talks to it, starts with the first design that is opened or found.
 */
import { commands, type ExtensionContext, workspace } from "vscode";
import { DESIGN_PATTERN, isDesign } from "./designSelector.js";
import { openExample } from "./openExample.js";
import type { Platform } from "./platform.js";
import type { RekeyToArguments } from "./rekeyTo.js";
import { SHOW_RULE, showRule } from "./rulePages.js";
import type { Running } from "./running.js";

let running: Promise<Running> | undefined;

/** @param platform is loaded with the first design */
export function activateOn(context: ExtensionContext, platform: () => Promise<Platform>): void {
  const started = () => {
    running ??= Promise.all([import("./running.js"), platform()]).then(([{ start }, where]) => start(context, where));
    return running;
  };
  context.subscriptions.push(
    commands.registerCommand("borewright.rekeyTo", async (given?: RekeyToArguments) =>
      (await started()).rekeyTo(given),
    ),
    commands.registerCommand("borewright.openBoreView", async (place?: unknown) =>
      (await started()).showBoreView(place),
    ),
    commands.registerCommand("borewright.bringInTune", async () => (await started()).bringInTune()),
    commands.registerCommand("borewright.compareWith", async () => (await started()).compareWith()),
    commands.registerCommand("borewright.openExample", () => openExample(context)),
    commands.registerCommand(SHOW_RULE, (page: unknown) => showRule(context, page)),
    commands.registerCommand("borewright.newInstrument", async () => (await started()).newInstrument()),
    commands.registerCommand("borewright.surveyModel", async () => (await started()).surveyModel()),
    commands.registerCommand("borewright.listenTo", async () => (await started()).listenTo()),
    commands.registerCommand("borewright.makeSolid", async () => (await started()).make("solid")),
    commands.registerCommand("borewright.saveDrawing", async () => (await started()).make("drawing")),
    commands.registerCommand("borewright.saveChart", async () => (await started()).make("chart")),
    commands.registerCommand("borewright.restart", async () => (await started()).restart()),
    commands.registerCommand("borewright.showOutput", async () => (await started()).showOutput()),
    workspace.onDidOpenTextDocument((document) => isDesign(document) && void started()),
    // An unsaved text may become one while it is written.
    workspace.onDidChangeTextDocument(
      ({ document }) => running === undefined && document.isUntitled && isDesign(document) && void started(),
    ),
  );
  if (workspace.textDocuments.some(isDesign)) void started();
  else
    void workspace.findFiles(DESIGN_PATTERN, "**/node_modules/**", 1).then((found) => {
      if (found.length > 0) void started();
    });
}

export async function deactivate(): Promise<void> {
  await (await running)?.stop();
}
