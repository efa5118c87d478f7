/** Changes to messages between VS Code and the server. */
import { type TextDocument, Uri } from "vscode";
import type { Middleware } from "vscode-languageclient";
import { OLD_SCHEME } from "./designSelector.js";
import { linkedToPages } from "./rulePages.js";

/** Old texts are read only: findings and offers to change them would be in the way. */
const isOld = (document: TextDocument | Uri) =>
  (document instanceof Uri ? document : document.uri).scheme === OLD_SCHEME;

export const MIDDLEWARE: Middleware = {
  handleDiagnostics: (uri, diagnostics, next) => next(uri, isOld(uri) ? [] : linkedToPages(diagnostics)),
  provideDiagnostics: async (document, previous, token, next) => {
    const report = await next(document, previous, token);
    // `full`, not a report that nothing has changed.
    if (!report || !("items" in report)) return report;
    return { ...report, items: isOld(document) ? [] : linkedToPages(report.items) };
  },
  provideWorkspaceDiagnostics: (resultIds, token, reporter, next) =>
    next(resultIds, token, (chunk) =>
      reporter(
        chunk && {
          items: chunk.items.map((item) => ("items" in item ? { ...item, items: linkedToPages(item.items) } : item)),
        },
      ),
    ),
  provideCodeLenses: (document, token, next) => (isOld(document) ? [] : next(document, token)),
  provideCodeActions: (document, range, context, token, next) =>
    isOld(document) ? [] : next(document, range, context, token),
};
