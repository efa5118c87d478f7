/** Writes what was made: whole or not at all, each file beside its place first and then put there. */
import { l10n, type Uri, workspace } from "vscode";
import { fromBase64 } from "../../../server/src/protocol/base64.js";
import type { MakeAnswer } from "../../../server/src/protocol/making.js";
import { askFirst } from "../notify.js";

/** Names of the files written; none where the maker declines to replace a file that the dialog did not ask about. */
export async function writeFiles(target: Uri, files: MakeAnswer["files"]): Promise<readonly string[]> {
  const places = files.map(({ suffix, base64 }) => ({
    uri: withSuffix(target, suffix),
    bytes: fromBase64(base64),
  }));
  const unasked = places.filter(({ uri }) => uri.toString() !== target.toString()).map(({ uri }) => uri);
  if (!(await mayReplace(unasked))) return [];
  const drafts: { readonly draft: Uri; readonly uri: Uri }[] = [];
  try {
    for (const { uri, bytes } of places) {
      const draft = uri.with({ path: `${uri.path}.part` });
      drafts.push({ draft, uri });
      await workspace.fs.writeFile(draft, bytes);
    }
    for (const { draft, uri } of drafts) await workspace.fs.rename(draft, uri, { overwrite: true });
  } catch (error) {
    for (const { draft } of drafts) await Promise.resolve(workspace.fs.delete(draft)).catch(() => undefined);
    throw error;
  }
  return places.map(({ uri }) => nameOf(uri));
}

function withSuffix(uri: Uri, suffix: string): Uri {
  const dot = uri.path.lastIndexOf(".");
  return uri.with({ path: `${uri.path.slice(0, dot)}${suffix}${uri.path.slice(dot)}` });
}

async function mayReplace(uris: readonly Uri[]): Promise<boolean> {
  const there: string[] = [];
  for (const uri of uris)
    await Promise.resolve(workspace.fs.stat(uri)).then(
      () => there.push(nameOf(uri)),
      () => undefined, // not there
    );
  if (there.length === 0) return true;
  return askFirst(l10n.t("{0}: already there. Replace?", there.join(", ")), l10n.t("Replace"));
}

function nameOf(uri: Uri): string {
  return uri.path.split("/").at(-1) ?? "";
}
