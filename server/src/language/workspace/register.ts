/**
 * Findings of designs that are not open (workspace/diagnostic). The answer waits until there is something new: a client asks again as
 * soon as it has one.
 */
import { pathToFileURL } from "node:url";
import {
  type CancellationToken,
  DidChangeWatchedFilesNotification,
  DidChangeWorkspaceFoldersNotification,
  DocumentDiagnosticReportKind,
  type WorkspaceDocumentDiagnosticReport,
} from "vscode-languageserver";
import { isNews, stackOf } from "../../instrument/contained.js";
import { copyOf } from "../designContext.js";
import { closedDiagnostics } from "../diagnostics.js";
import type { Session } from "../session.js";
import type { WorkspaceDesigns } from "../workspaceDesigns.js";
import { type CheckFiles, type ClosedDesign, ClosedDesigns } from "./closedDesigns.js";
import { Folders, pathOf } from "./folders.js";
import { registerSymbols } from "./symbols.js";

/** Changes within this time are handled together, ms. */
const TOGETHER = 200;
/** How often to look where the client does not report changed files, ms. */
const WITHOUT_WATCHING = 10_000;

/** @param check who checks them, beside everything else */
export function workspaceOnDisk(check: CheckFiles): WorkspaceDesigns {
  return {
    register: (session, params) => {
      const folders = new Folders(params);
      const { changesFolders, pullDiagnostics } = session.client;
      const checks = pullDiagnostics && (changesFolders || folders.all.length > 0);
      const changed = checks ? registerChecks(session, folders, check) : () => undefined;
      registerSymbols(session, folders);
      if (changesFolders)
        // Not by the library's event: it would ask the client for it at once, and before the answer to `initialize` nothing may be asked.
        session.connection.onNotification(DidChangeWorkspaceFoldersNotification.type, ({ event }) => {
          folders.change(event);
          for (const { uri } of event.removed) session.settings.forget(uri);
          changed();
        });
      return checks;
    },
    watch: watchDesigns,
  };
}

/** @returns what is to be called when the folders have changed */
function registerChecks(session: Session, folders: Folders, check: CheckFiles): () => void {
  const { connection, texts } = session;
  const designs = new ClosedDesigns(folders, check);
  let waiting: (() => void)[] = [];
  const changed = () => {
    for (const go of waiting.splice(0)) setTimeout(go, TOGETHER);
  };
  session.settings.onChange(changed);
  connection.onDidChangeWatchedFiles(changed);
  texts.onDidClose(changed);

  connection.languages.diagnostics.onWorkspace(async ({ previousResultIds }, token, _, progress) => {
    const told = new Map(previousResultIds.map(({ uri, value }) => [pathOf(uri) ?? uri, { uri, value }]));
    const items: WorkspaceDocumentDiagnosticReport[] = [];
    const tell = (design: ClosedDesign) => {
      if (told.get(design.file)?.value === design.reading || openPaths(session).has(design.file)) return;
      told.set(design.file, { uri: pathToFileURL(design.file).href, value: design.reading });
      const report = reportOn(session, design);
      if (progress === undefined) items.push(report);
      else progress.report({ items: [report] });
      isNew = true;
    };
    let isNew = false;
    const stop = new AbortController();
    token.onCancellationRequested(() => stop.abort());
    while (!token.isCancellationRequested) {
      // Listen before reading, so that no change is missed.
      const change = nextChange(token);
      await Promise.all(folders.all.map(({ uri }) => session.settings.ready(uri)));
      await designs.look(({ uri }) => session.checkSettings(uri), tell, stop.signal);
      for (const design of designs.all) tell(design);
      for (const { uri } of gone(told, designs.all)) {
        items.push({ kind: DocumentDiagnosticReportKind.Full, uri, version: null, items: [] });
        isNew = true;
      }
      if (isNew) break;
      await change;
    }
    return { items };
  });
  return changed;

  /** Resolves with the next change, or once nobody waits any more. */
  function nextChange(token: CancellationToken): Promise<void> {
    return new Promise((resolve) => {
      waiting.push(resolve);
      token.onCancellationRequested(() => {
        waiting = waiting.filter((each) => each !== resolve);
        resolve();
      });
      if (!session.client.watchesFiles) setTimeout(resolve, WITHOUT_WATCHING).unref();
    });
  }
}

/** Asks the client to report changed files. */
function watchDesigns({ connection }: Session): void {
  void connection.client.register(DidChangeWatchedFilesNotification.type, {
    watchers: [{ globPattern: "**/*.bore.{yaml,yml,json}" }, { globPattern: "**/.borewrightignore" }],
  });
}

function gone<T>(told: Map<string, T>, all: readonly ClosedDesign[]): readonly T[] {
  const there = new Set(all.map(({ file }) => file));
  const left = [...told].filter(([file]) => !there.has(file));
  for (const [file] of left) told.delete(file);
  return left.map(([, each]) => each);
}

function reportOn(session: Session, { file, reading, checked }: ClosedDesign): WorkspaceDocumentDiagnosticReport {
  const uri = pathToFileURL(file).href;
  const { fault, text, findings } = checked;
  if (fault !== undefined && isNews(fault)) session.log(`The check of ${uri} failed: ${stackOf(fault)}`);
  const place = { uri, client: session.client, text: copyOf(uri, 0, text) };
  const items = closedDiagnostics(place, findings);
  return { kind: DocumentDiagnosticReportKind.Full, uri, version: null, resultId: reading, items };
}

/** Files that have findings of their own, by their texts. */
function openPaths({ texts }: Session): ReadonlySet<string> {
  return new Set(texts.keys().flatMap((uri) => pathOf(uri) ?? []));
}
