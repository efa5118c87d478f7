/** The page of a rule, rendered rather than as its source. */
import { commands, type Diagnostic, type ExtensionContext, Uri } from "vscode";

export const SHOW_RULE = "borewright.showRule";

/** Name of a page in docs/rules. */
const PAGE = /^[a-z-]+\.md$/;

/** @param page such as `pitch-out-of-tune.md`; anything else is not shown */
export async function showRule({ extensionUri }: ExtensionContext, page: unknown): Promise<void> {
  if (typeof page !== "string" || !PAGE.test(page)) return;
  const uri = Uri.joinPath(extensionUri, "docs", "rules", page);
  try {
    await commands.executeCommand("markdown.showPreview", uri);
  } catch {
    await commands.executeCommand("vscode.open", uri); // an editor without that extension
  }
}

/** Has the link of a finding open its page by our command: VS Code would show the file's text. */
export function linkedToPages(diagnostics: readonly Diagnostic[]): Diagnostic[] {
  for (const diagnostic of diagnostics) {
    const { code } = diagnostic;
    if (typeof code !== "object") continue;
    const page = code.target.path.slice(code.target.path.lastIndexOf("/") + 1);
    if (code.target.scheme === "command" || !PAGE.test(page)) continue;
    const target = Uri.from({ scheme: "command", path: SHOW_RULE, query: JSON.stringify([page]) });
    diagnostic.code = { value: code.value, target };
  }
  return [...diagnostics];
}
