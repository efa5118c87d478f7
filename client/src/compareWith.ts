/** `Compare With…`: another version of the design in front, note by note, as a page. Git is VS Code's own, and only if it is trusted. */
import { commands, type Disposable, extensions, l10n, type QuickPickItem, Uri, window, workspace } from "vscode";
import type { BaseLanguageClient as LanguageClient } from "vscode-languageclient";
import { designEditor } from "./designEditor.js";
import { DESIGN_PATTERN } from "./designSelector.js";
import { tellFailure } from "./notify.js";

const SCHEME = "borewright-comparison";
/** Most designs to choose from; nobody would look through more. */
const MOST_FILES = 200;

const pages = new Map<string, string>();

/** Shows the pages that `compareWith` makes. */
export function comparisonPages(): Disposable {
  return workspace.registerTextDocumentContentProvider(SCHEME, {
    provideTextDocumentContent: (uri) => pages.get(uri.toString()) ?? "",
  });
}

export async function compareWith(client: LanguageClient): Promise<void> {
  const document = (await designEditor())?.document;
  if (document === undefined) return;
  const old = await chooseOld(document.uri);
  if (old === undefined) return;
  try {
    const other = await workspace.openTextDocument(old.uri);
    const answer = await client.sendRequest<{ markdown: string } | null>("borewright/compare", {
      uri: client.code2ProtocolConverter.asUri(document.uri),
      old: { name: old.name, text: other.getText() },
    });
    if (answer) await show(document.uri, answer.markdown);
  } catch (error) {
    tellFailure(l10n.t("Comparing failed"), error);
  }
}

interface Old {
  readonly uri: Uri;
  /** For the page; its ending tells the syntax. */
  readonly name: string;
}

async function chooseOld(uri: Uri): Promise<Old | undefined> {
  const committed = await lastCommit(uri);
  const files = (await workspace.findFiles(DESIGN_PATTERN, "**/node_modules/**", MOST_FILES)).filter(
    (file) => file.toString() !== uri.toString(),
  );
  const items: (QuickPickItem & { old?: Old })[] = [
    ...(committed === undefined ? [] : [{ label: l10n.t("The last commit"), old: committed }]),
    ...files.map((file) => ({
      label: nameOf(file),
      description: workspace.asRelativePath(file),
      old: { uri: file, name: nameOf(file) },
    })),
    { label: l10n.t("Another file…") },
  ];
  const chosen = await window.showQuickPick(items, {
    title: l10n.t("Compare {0}", nameOf(uri)),
    placeHolder: l10n.t("With which older version?"),
  });
  if (chosen === undefined || chosen.old !== undefined) return chosen?.old;
  const [file] =
    (await window.showOpenDialog({ canSelectMany: false, filters: { Designs: ["yaml", "yml", "json"] } })) ?? [];
  return file && { uri: file, name: nameOf(file) };
}

/** What VS Code's git extension gives to others; version 1 of it. */
interface GitExtension {
  getAPI(version: 1): { toGitUri(uri: Uri, ref: string): Uri; getRepository(uri: Uri): unknown };
}

async function lastCommit(uri: Uri): Promise<Old | undefined> {
  const git = extensions.getExtension<GitExtension>("vscode.git");
  if (!workspace.isTrusted || git === undefined || uri.scheme !== "file") return undefined;
  try {
    const api = (git.isActive ? git.exports : await git.activate()).getAPI(1);
    if (!api.getRepository(uri)) return undefined;
    return { uri: api.toGitUri(uri, "HEAD"), name: `HEAD:${nameOf(uri)}` };
  } catch {
    return undefined; // switched off by the user's settings
  }
}

async function show(uri: Uri, markdown: string): Promise<void> {
  const page = Uri.from({ scheme: SCHEME, path: `/${nameOf(uri)} compared.md`, query: String(pages.size) });
  pages.set(page.toString(), markdown);
  await commands.executeCommand("markdown.showPreviewToSide", page);
}

function nameOf({ path }: Uri): string {
  return path.slice(path.lastIndexOf("/") + 1);
}
