/** `Make the Solid…`, `Save the Drawing…`, `Save the Fingering Chart…`: where it goes is asked, then the server makes it. */
import { l10n, ProgressLocation, Range, Selection, type TextEditor, TextEditorRevealType, Uri, window } from "vscode";
import { type BaseLanguageClient as LanguageClient, LSPErrorCodes, ResponseError } from "vscode-languageclient";
import {
  MAKE,
  MAKE_FORMATS,
  type MakeAnswer,
  type Makeable,
  type MakeQuestion,
} from "../../../server/src/protocol/making.js";
import { chooseInstrument } from "../chooseInstrument.js";
import { designEditor } from "../designEditor.js";
import { tell, tellFailure, tellTrouble } from "../notify.js";
import { instrumentsOf } from "../requests.js";
import { showSheet } from "./sheets.js";
import { writeFiles } from "./writeFiles.js";

interface Words {
  readonly title: string;
  readonly progress: string;
  readonly failure: string;
  readonly done: string;
  /** Between the design's name and the ending. */
  readonly suffix: string;
  readonly filters: Record<string, string[]>;
}

const sheets = () => ({
  [l10n.t("PDF, all sheets in one file")]: ["pdf"],
  [l10n.t("SVG, a file for each sheet")]: ["svg"],
});
const words = (): Record<Makeable, Words> => ({
  solid: {
    title: l10n.t("Make the Solid"),
    progress: l10n.t("Making the solid"),
    failure: l10n.t("The solid could not be made"),
    done: l10n.t("Print at 100 %, with no compensation in the slicer; read the sheet first."),
    suffix: "",
    filters: { [l10n.t("3MF, all parts in one file")]: ["3mf"], [l10n.t("STL, a file for each part")]: ["stl"] },
  },
  drawing: {
    title: l10n.t("Save the Drawing"),
    progress: l10n.t("Drawing"),
    failure: l10n.t("It could not be drawn"),
    done: l10n.t("Print the drilling template at 100 % and check its line of 100 mm."),
    suffix: "-drawing",
    filters: sheets(),
  },
  chart: {
    title: l10n.t("Save the Fingering Chart"),
    progress: l10n.t("Drawing the chart"),
    failure: l10n.t("The chart could not be drawn"),
    done: "",
    suffix: "-chart",
    filters: sheets(),
  },
});

export async function make(client: LanguageClient, what: Makeable): Promise<void> {
  const editor = await designEditor();
  if (editor === undefined) return;
  const { title, progress, failure, done } = words()[what];
  const uri = client.code2ProtocolConverter.asUri(editor.document.uri);
  try {
    const instrument = await chooseInstrument(await instrumentsOf(client, uri), title);
    if (instrument === undefined) return;
    const target = await askWhere(editor.document.uri, what);
    if (target === undefined) return;
    const { documentIndex } = instrument;
    const question: MakeQuestion = { uri, documentIndex, what, format: endingOf(target) };
    const answer = await window.withProgress(
      { location: ProgressLocation.Notification, title: progress, cancellable: true },
      (_, token) => client.sendRequest<MakeAnswer>(MAKE, question, token),
    );
    if (answer.refused !== undefined) return tellRefusal(editor, failure, answer.refused);
    const written = await writeFiles(target, answer.files);
    if (written.length === 0) return;
    tell(l10n.t("Written: {0}. {1}", written.join(", "), done));
    if (answer.sheet !== undefined) await showSheet(target, answer.sheet);
  } catch (error) {
    if (error instanceof ResponseError && error.code === LSPErrorCodes.RequestCancelled) return; // the maker cancelled it
    tellFailure(failure, error);
  }
}

/** Undefined where the dialog was cancelled, or the name has an ending of no known format. */
async function askWhere(design: Uri, what: Makeable): Promise<Uri | undefined> {
  const { title, suffix, filters } = words()[what];
  const name = (design.path.split("/").at(-1) ?? "instrument").replace(/\.bore\.(ya?ml|json)$/i, "");
  const defaultUri = Uri.joinPath(design, "..", `${name}${suffix}.${MAKE_FORMATS[what][0]}`);
  // A design that was never saved has no folder.
  const place = design.scheme === "untitled" ? {} : { defaultUri };
  const target = await window.showSaveDialog({ title, filters, ...place });
  if (target === undefined) return undefined;
  if ((MAKE_FORMATS[what] as readonly string[]).includes(endingOf(target))) return target;
  tellTrouble(l10n.t("End the name in {0}.", MAKE_FORMATS[what].map((each) => `.${each}`).join(" or ")));
  return undefined;
}

function endingOf(uri: Uri): string {
  return /\.(\w+)$/.exec(uri.path)?.[1]?.toLowerCase() ?? "";
}

/** The first reason, with the cursor at its place; the others stand among the problems. */
function tellRefusal(editor: TextEditor, failure: string, refused: NonNullable<MakeAnswer["refused"]>): void {
  const [first, ...others] = refused;
  if (first?.start !== undefined) {
    const at = editor.document.positionAt(first.start);
    editor.selection = new Selection(at, at);
    editor.revealRange(new Range(at, at), TextEditorRevealType.InCenterIfOutsideViewport);
  }
  const more = others.length === 0 ? "" : l10n.t(" And {0} more: see the problems of the design.", others.length);
  tellTrouble(`${failure}: ${first?.message ?? l10n.t("the reason is not known.")}${more}`);
}
