/** `Rekey to…`: asks for what is not known yet, then lets the server do the work. */
import { CancellationTokenSource, l10n, ProgressLocation, type QuickPickItem, window } from "vscode";
import { type BaseLanguageClient as LanguageClient, LSPErrorCodes, ResponseError } from "vscode-languageclient";
import { chooseInstrument } from "./chooseInstrument.js";
import { designEditor } from "./designEditor.js";
import { noteProblem } from "./noteInput.js";
import { tell, tellFailure } from "./notify.js";
import { plainText } from "./plainText.js";
import { type InstrumentSummary, instrumentsOf, previewRekey, type RekeyPreview } from "./requests.js";

/** As the code lens and the code action give them; all may be missing when started from the command palette. */
export interface RekeyToArguments {
  readonly uri?: string;
  readonly documentIndex?: number;
}

export interface AskedRekey {
  readonly uri: string;
  readonly documentIndex: number;
  readonly note: string;
  readonly by: RekeyPreview["by"];
}

/** Asks for instrument, note and way, as far as they are not known; undefined where the maker cancels. */
export async function askForRekey(
  client: LanguageClient,
  given: RekeyToArguments = {},
): Promise<AskedRekey | undefined> {
  const uri = given.uri ?? (await activeDesign(client));
  if (uri === undefined) return undefined;
  const instruments = await instrumentsOf(client, uri);
  const instrument = await chooseInstrument(instruments, l10n.t("Rekey to…"), given.documentIndex);
  if (instrument === undefined) return undefined;
  const note = await askForNote(instrument);
  if (note === undefined) return undefined;
  const { documentIndex } = instrument;
  const by = await chooseMethod(client, { uri, documentIndex, note });
  return by && { uri, documentIndex, note, by };
}

export async function rekeyTo(client: LanguageClient, given: RekeyToArguments = {}): Promise<void> {
  try {
    const asked = await askForRekey(client, given);
    if (asked === undefined) return;
    const progress = {
      location: ProgressLocation.Notification,
      title: l10n.t("Rekeying to {0}", asked.note),
      cancellable: true,
    };
    const command = { command: "borewright.rekey", arguments: [asked] };
    const answer = await window.withProgress(progress, (_, token) =>
      client.sendRequest<{ message: string }>("workspace/executeCommand", command, token),
    );
    tell(answer.message);
  } catch (error) {
    if (error instanceof ResponseError && error.code === LSPErrorCodes.RequestCancelled) return; // the maker cancelled it
    tellFailure(l10n.t("Rekeying failed"), error);
  }
}

async function activeDesign(client: LanguageClient): Promise<string | undefined> {
  const editor = await designEditor();
  return editor && client.code2ProtocolConverter.asUri(editor.document.uri);
}

async function askForNote({ name, key }: InstrumentSummary): Promise<string | undefined> {
  const answer = await window.showInputBox({
    title: plainText(l10n.t("Rekey {0}", name)),
    prompt:
      key === undefined
        ? l10n.t("The note it should play with every hole closed")
        : l10n.t("Now in {0}. The new key, with its octave", key),
    placeHolder: "A4, Bb3, F#5",
    validateInput: noteProblem,
  });
  return answer?.trim();
}

interface MethodItem extends QuickPickItem {
  readonly by: RekeyPreview["by"];
  readonly possible: boolean;
}

/** Both ways with their results, so that the choice is made on numbers. */
async function chooseMethod(
  client: LanguageClient,
  question: { readonly uri: string; readonly documentIndex: number; readonly note: string },
): Promise<RekeyPreview["by"] | undefined> {
  const asking = new CancellationTokenSource();
  const items = previewRekey(client, question, asking.token).then((previews) =>
    previews.map(
      ({ by, outcome, possible }): MethodItem => ({ ...METHODS()[by], detail: plainText(outcome), by, possible }),
    ),
  );
  items.catch(() => undefined); // once nobody asks any more, it does not matter
  const chosen = await window.showQuickPick(items, {
    title: l10n.t("Rekey to {0}", question.note),
    placeHolder: l10n.t("How?"),
  });
  asking.cancel();
  if (chosen !== undefined && !chosen.possible) throw new Error(chosen.detail);
  return chosen?.by;
}

const METHODS = (): Record<RekeyPreview["by"], { readonly label: string; readonly description: string }> => ({
  "print-scale": {
    label: l10n.t("Print scale"),
    description: l10n.t("one percentage for the slicer; the drawing stays"),
  },
  redraw: { label: l10n.t("Redraw"), description: l10n.t("every dimension rewritten by one factor") },
  refit: {
    label: l10n.t("Refit"),
    description: l10n.t("walls, finger spread and print limits hold; the holes are placed anew"),
  },
});
