/** Saves the sheet where the maker says. */
import { l10n, Uri, window, workspace } from "vscode";
import { fromBase64 } from "../../../server/src/protocol/base64.js";
import type { FromView } from "../../view/messages.js";
import { tellFailure } from "../notify.js";

const FILTERS = { svg: { "Scalable vector graphics": ["svg"] }, png: { Picture: ["png"] } };

export async function savePicture(
  { name, kind, base64 }: Extract<FromView, { type: "save" }>,
  design: Uri,
): Promise<void> {
  // Characters that every file system accepts.
  const file = `${name.replace(/[^\p{L}\p{N} ._-]+/gu, "-").slice(0, 80) || "instrument"}.${kind}`;
  const chosen = await window.showSaveDialog({ defaultUri: Uri.joinPath(design, "..", file), filters: FILTERS[kind] });
  if (chosen === undefined) return;
  try {
    await workspace.fs.writeFile(chosen, fromBase64(base64));
  } catch (error) {
    tellFailure(l10n.t("The picture could not be saved"), error);
  }
}
