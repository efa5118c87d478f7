/** Diagnostics are pulled by a client that can, and pushed to one that cannot; never both. */
import {
  type Disposable,
  type DocumentDiagnosticReport,
  DocumentDiagnosticReportKind,
  LSPErrorCodes,
  ResponseError,
} from "vscode-languageserver";
import type { TextDocument } from "vscode-languageserver-textdocument";
import { Cancelled } from "../acoustics/cancelled.js";
import { isNews, stackOf } from "../instrument/contained.js";
import { type DesignContext, isDesignText } from "./designContext.js";
import { diagnostics } from "./diagnostics.js";
import { inSlices } from "./inSlices.js";
import type { Session } from "./session.js";
import { nextTurn } from "./turns.js";

/**
 * Milliseconds of quiet before diagnostics are pushed: several edits in one moment are reported once. No more is needed, since the
 * work is done in slices and dropped as soon as the text changes.
 */
const PUSH_DELAY = 20;

const NOTHING: DocumentDiagnosticReport = { kind: DocumentDiagnosticReportKind.Full, items: [] };

export function registerPull(session: Session): void {
  const { connection } = session;
  connection.languages.diagnostics.on(async ({ textDocument, previousResultId }, token) => {
    const { uri } = textDocument;
    const report = await session.answer<DocumentDiagnosticReport>(
      "Diagnostics",
      uri,
      token,
      NOTHING,
      async (design, shouldStop) => {
        const resultId = design.reading;
        if (resultId === previousResultId) return { kind: DocumentDiagnosticReportKind.Unchanged, resultId };
        await foundIn(design, shouldStop);
        return { kind: DocumentDiagnosticReportKind.Full, resultId, items: diagnostics(design) };
      },
    );
    // An answer overtaken by typing must be asked for again, or the old findings would stay.
    if (report instanceof ResponseError && report.code === LSPErrorCodes.ContentModified)
      return new ResponseError(LSPErrorCodes.ServerCancelled, report.message, { retriggerRequest: true });
    return report as DocumentDiagnosticReport;
  });
  session.settings.onChange(() => {
    if (session.client.refreshDiagnostics) connection.languages.diagnostics.refresh();
  });
}

export function registerPush(session: Session): void {
  const { connection, texts } = session;
  const waiting = new Map<string, Disposable>();
  const forget = (uri: string) => {
    waiting.get(uri)?.dispose();
    waiting.delete(uri);
  };
  const schedule = (uri: string, delay: number) => {
    forget(uri);
    const timer = setTimeout(() => {
      waiting.delete(uri);
      void push(session, uri);
    }, delay);
    waiting.set(uri, { dispose: () => clearTimeout(timer) });
  };
  const opened = new Set<string>();
  // Fires on opening, too: then nobody is typing, and there is nothing to wait for.
  const isDesign = (document: TextDocument) => isDesignText({ uri: document.uri, getText: () => document.getText() });
  texts.onDidChangeContent(({ document }) => {
    if (!isDesign(document)) return;
    const { uri } = document;
    schedule(uri, opened.has(uri) ? PUSH_DELAY : 0);
    opened.add(uri);
  });
  texts.onDidClose(({ document }) => {
    const { uri } = document;
    forget(uri);
    opened.delete(uri);
    if (isDesign(document)) void connection.sendDiagnostics({ uri, diagnostics: [] });
  });
  session.settings.onChange(() => {
    for (const document of texts.all()) if (isDesign(document)) schedule(document.uri, 0);
  });
}

/** Works all findings out. Requests that wait only for predictions are answered first: hints show before remedies have been searched for. */
async function foundIn({ file, analysisSteps, findingSteps }: DesignContext, shouldStop: () => boolean): Promise<void> {
  await inSlices(file.documents, analysisSteps, shouldStop);
  await nextTurn();
  if (shouldStop()) throw new Cancelled();
  await inSlices(file.documents, findingSteps, shouldStop);
}

async function push(session: Session, uri: string): Promise<void> {
  try {
    const stale = session.watch(uri);
    const design = await session.design(uri, stale);
    if (design === undefined) return;
    const { version } = design;
    await foundIn(design, stale);
    if (stale()) return; // closed meanwhile, or with a turn of its own
    void session.connection.sendDiagnostics({ uri, version, diagnostics: diagnostics(design) });
  } catch (error) {
    if (error instanceof Cancelled) return; // the newer text has its own turn
    if (isNews(error)) session.log(`Diagnostics for ${uri} failed: ${stackOf(error)}`);
  }
}
