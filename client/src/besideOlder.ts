/** Tells the server beside which older text a design is shown in a diff, so that its hints say how the notes changed. */
import { type Disposable, l10n, TabInputTextDiff, type Uri, window, workspace } from "vscode";
import type { BaseLanguageClient as LanguageClient } from "vscode-languageclient";
import { isDesign } from "./designSelector.js";

export function tellOlderTexts(client: LanguageClient): Disposable {
  let told = new Set<string>();
  const tell = async () => {
    const diffs = window.tabGroups.all
      .flatMap(({ tabs }) => tabs)
      .flatMap(({ input }) => (input instanceof TabInputTextDiff ? [input] : []));
    const now = new Set<string>();
    for (const { original, modified } of diffs) {
      const [before, after] = await Promise.all([original, modified].map((uri) => workspace.openTextDocument(uri)));
      if (before === undefined || after === undefined || !isDesign(after)) continue;
      const uri = client.code2ProtocolConverter.asUri(modified);
      now.add(uri);
      const old = {
        name: before.uri.path.slice(before.uri.path.lastIndexOf("/") + 1),
        text: before.getText(),
        since: sinceWhen(original),
      };
      await client.sendNotification("borewright/beside", { uri, old });
    }
    for (const uri of told) if (!now.has(uri)) await client.sendNotification("borewright/beside", { uri });
    told = now;
  };
  // A side that cannot be opened, or a server that is just ending: there is nothing to compare with then.
  const quietly = () => void tell().catch(() => undefined);
  quietly();
  return window.tabGroups.onDidChangeTabs(quietly);
}

/** The old side in words; VS Code's git names its revision in the query. */
function sinceWhen({ scheme, query, path }: Uri): string {
  if (scheme !== "git") return l10n.t("since {0}", path.slice(path.lastIndexOf("/") + 1));
  const ref = revisionIn(query);
  if (ref === "HEAD") return l10n.t("since the last commit");
  // Of the working tree: what is staged where something is, else the last commit.
  if (ref === "~") return l10n.t("since the last commit or staging");
  if (ref === "") return l10n.t("since what is staged");
  return /^[0-9a-f]{7,}/.test(ref) ? l10n.t("since {0}", ref.slice(0, 7)) : l10n.t("since what git has");
}

const UNKNOWN = "?";

function revisionIn(query: string): string {
  try {
    const { ref } = JSON.parse(query) as { ref?: unknown };
    return typeof ref === "string" ? ref : UNKNOWN;
  } catch {
    return UNKNOWN;
  }
}
