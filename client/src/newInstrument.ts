/** `New Instrument…`: kind, key, tube and hand, then a design in tune as an untitled file. */
import { commands, l10n, ProgressLocation, Range, type TextDocument, WorkspaceEdit, window, workspace } from "vscode";
import type { BaseLanguageClient as LanguageClient } from "vscode-languageclient";
import { OPEN_BORE_VIEW } from "../../server/src/protocol/boreView.js";
import {
  INSTRUMENT_KINDS,
  type InstrumentKind,
  isTubeAtHand,
  NEW_INSTRUMENT,
  type NewInstrumentAnswer,
  type NewInstrumentQuestion,
  TUBE_AT_HAND,
} from "../../server/src/protocol/newInstrument.js";
import { isDesign } from "./designSelector.js";
import { openUntitled } from "./newFile.js";
import { noteProblem } from "./noteInput.js";
import { offer, tellTrouble } from "./notify.js";

const title = () => l10n.t("New Instrument");

export async function newInstrument(client: LanguageClient): Promise<void> {
  const active = window.activeTextEditor?.document;
  const empty = active && isDesign(active) && /\.ya?ml$/.test(active.uri.path) ? active : undefined;
  const question = await asked(await client.sendRequest<readonly InstrumentKind[]>(INSTRUMENT_KINDS));
  if (question === undefined) return;
  const progress = {
    location: ProgressLocation.Notification,
    title: l10n.t("Bringing it into tune in {0}", question.key),
    cancellable: true,
  };
  const answer = await window.withProgress(progress, (_, token) =>
    client.sendRequest<NewInstrumentAnswer>(NEW_INSTRUMENT, question, token),
  );
  if (answer.text === undefined) {
    tellTrouble(answer.message);
    return;
  }
  if (!(await fillEmpty(empty, answer.text))) await openUntitled(answer.name ?? "instrument", answer.text);
  if (await offer(answer.message, l10n.t("Bore view"))) await commands.executeCommand(OPEN_BORE_VIEW);
}

/** Writes into an empty design that the maker began from, if it is still empty. */
async function fillEmpty(document: TextDocument | undefined, text: string): Promise<boolean> {
  if (document === undefined || document.isClosed || document.getText().trim() !== "") return false;
  const edit = new WorkspaceEdit();
  edit.replace(document.uri, new Range(0, 0, document.lineCount, 0), text);
  return workspace.applyEdit(edit);
}

async function asked(kinds: readonly InstrumentKind[]): Promise<NewInstrumentQuestion | undefined> {
  const items = kinds.map(({ id, title }) => ({ label: title, id }));
  const kind = await window.showQuickPick(items, { title: title(), placeHolder: l10n.t("What kind?") });
  if (kind === undefined) return undefined;
  const key = await window.showInputBox({
    title: title(),
    prompt: l10n.t("The note it plays with every hole closed, with its octave"),
    placeHolder: "D5, G4, Bb3",
    validateInput: noteProblem,
  });
  if (key === undefined) return undefined;
  const tube = await askForTube();
  if (tube === undefined) return undefined;
  const hands = [
    { label: l10n.t("An adult's hands"), hand: "adult" as const },
    { label: l10n.t("A child's hands"), hand: "child" as const, description: l10n.t("shorter reach, smaller holes") },
  ];
  const hand = await window.showQuickPick(hands, { title: title(), placeHolder: l10n.t("Who plays it?") });
  if (hand === undefined) return undefined;
  return { kind: kind.id, key: key.trim(), hand: hand.hand, ...(tube === "printed" ? {} : { tube }) };
}

async function askForTube(): Promise<{ bore: number; wall: number } | "printed" | undefined> {
  const text = await window.showInputBox({
    title: title(),
    prompt: l10n.t("Inner diameter of the tube at hand and its wall, in mm. Leave it empty for a printed one."),
    placeHolder: "14 x 1",
    validateInput: (typed) =>
      typed.trim() === "" || tubeOf(typed)
        ? undefined
        : l10n.t("Write the inner diameter, and the wall after an x: 14 x 1"),
  });
  if (text === undefined) return undefined;
  return text.trim() === "" ? "printed" : tubeOf(text);
}

/** `14`, `14 x 1`, `14.5×0.6`. */
export function tubeOf(text: string): { bore: number; wall: number } | undefined {
  const match = /^\s*(\d+(?:[.,]\d+)?)\s*(?:mm)?\s*(?:[x×*/]\s*(\d+(?:[.,]\d+)?)\s*(?:mm)?\s*)?$/i.exec(text);
  if (match === null) return undefined;
  const number = (part: string | undefined) => Number((part ?? "").replace(",", "."));
  const [bore, wall] = [number(match[1]), match[2] === undefined ? TUBE_AT_HAND.usualWall : number(match[2])];
  return isTubeAtHand({ bore, wall }) ? { bore, wall } : undefined;
}
