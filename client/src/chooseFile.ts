/** Files that are not designs: a model to survey, a recording to listen to. */
import { l10n, ProgressLocation, type Uri, window, workspace } from "vscode";
import type { BaseLanguageClient as LanguageClient } from "vscode-languageclient";
import { toBase64 } from "../../server/src/protocol/base64.js";
import {
  type FileQuestion,
  LISTEN_TO,
  type ListenAnswer,
  SURVEY_MODEL,
  type SurveyAnswer,
} from "../../server/src/protocol/filesOfMakers.js";
import { decodedRecording, NotDecoded } from "./decodeRecording.js";
import { designEditor } from "./designEditor.js";
import { openUntitled } from "./newFile.js";
import { tell, tellFailure, tellTrouble } from "./notify.js";
import { instrumentsOf } from "./requests.js";

/** `Survey a Model…`: a design from it, as an untitled file. */
export async function surveyModel(client: LanguageClient): Promise<void> {
  const file = await chosen("Survey", { "Printable models": ["stl", "3mf", "obj"] });
  if (file === undefined) return;
  try {
    const question = await questionOn(file);
    const answer = await shown(client, l10n.t("Surveying the model"), SURVEY_MODEL, question);
    const { text, name = "model", message } = answer as SurveyAnswer;
    if (text === undefined) {
      tellTrouble(message);
      return;
    }
    await openUntitled(name, text);
    tell(message);
  } catch (error) {
    tellFailure(l10n.t("The model could not be surveyed"), error);
  }
}

/** `Listen to a Recording…`: the notes of the design in front, written under `measured`. */
export async function listenTo(client: LanguageClient): Promise<void> {
  const document = (await designEditor())?.document;
  if (document === undefined) return;
  const uri = client.code2ProtocolConverter.asUri(document.uri);
  const documentIndex = await instrumentIn(client, uri);
  if (documentIndex === undefined) return;
  const file = await chosen("Listen", { Recordings: ["wav", ...DECODED], "All files": ["*"] });
  if (file === undefined) return;
  const typed = await window.showInputBox({
    title: l10n.t("Listen to a Recording"),
    prompt: l10n.t(
      "Temperature of the air in the instrument as it was played, °C. Leave it empty if it was the design's.",
    ),
    validateInput: (text) =>
      text.trim() === "" || celsius(text) !== undefined ? undefined : l10n.t("Write a number, like 22.5"),
  });
  if (typed === undefined) return;
  const temperature = celsius(typed);
  try {
    const question = {
      uri,
      documentIndex,
      ...(/\.wav$/i.test(file.path) ? await questionOn(file) : await decodedRecording(file)),
      ...(temperature === undefined ? {} : { temperature }),
    };
    const { applied, message } = (await shown(client, "Listening", LISTEN_TO, question)) as ListenAnswer;
    if (applied) tell(message);
    else tellTrouble(message);
  } catch (error) {
    if (error instanceof NotDecoded) tellTrouble(error.message);
    else tellFailure(l10n.t("The recording could not be used"), error);
  }
}

/** What editors usually decode; the page finds out which. WAV is read without them. */
const DECODED = ["flac", "ogg", "oga", "opus", "mp3", "m4a", "aac", "webm", "weba"];

async function instrumentIn(client: LanguageClient, uri: string): Promise<number | undefined> {
  const instruments = await instrumentsOf(client, uri);
  if (instruments.length < 2) return instruments[0]?.documentIndex ?? 0;
  const items = instruments.map(({ name, summary, documentIndex }) => ({
    label: name,
    description: summary,
    documentIndex,
  }));
  return (await window.showQuickPick(items, { title: l10n.t("Which was played?") }))?.documentIndex;
}

async function chosen(openLabel: string, filters: Record<string, string[]>): Promise<Uri | undefined> {
  const [file] = (await window.showOpenDialog({ canSelectMany: false, openLabel, filters })) ?? [];
  return file;
}

/** Most bytes that are handed to the server in one message. */
const MOST_HANDED = 100e6;

/** The file by its path, or, where the server cannot read it, with what stands in it. */
async function questionOn(file: Uri): Promise<FileQuestion> {
  if (file.scheme === "file") return { file: file.fsPath };
  const name = file.path.split("/").at(-1) ?? "file";
  const { size } = await workspace.fs.stat(file);
  if (size > MOST_HANDED) throw new Error(`${name} is larger than ${MOST_HANDED / 1e6} MB: survey it from a disk`);
  return { file: name, base64: toBase64(await workspace.fs.readFile(file)) };
}

function shown(client: LanguageClient, title: string, request: string, question: unknown): Thenable<unknown> {
  const progress = { location: ProgressLocation.Notification, title, cancellable: true };
  return window.withProgress(progress, (_, token) => client.sendRequest(request, question, token));
}

/** °C that somebody plays in; undefined where it is not such a number. */
function celsius(text: string): number | undefined {
  const value = Number(text.replace(",", "."));
  return text.trim() !== "" && value >= -10 && value <= 45 ? value : undefined;
}
