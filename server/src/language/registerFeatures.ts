/** One line per feature: the request it answers, and the answer where it cannot. */
import {
  type CodeAction,
  CodeLensRefreshRequest,
  ErrorCodes,
  type InlayHint,
  MessageType,
  ResponseError,
} from "vscode-languageserver";
import { CannotRekey } from "../design/rekey/rekeyResult.js";
import { label } from "../escape/label.js";
import { codeActions, recipeOf, resolveCodeAction } from "./codeActions/index.js";
import { codeLenses, summedUpDocuments } from "./codeLens.js";
import { notePlace } from "./commands/names.js";
import { comparedWith, noteSteps, otherDesign } from "./comparing.js";
import { completion } from "./completion/index.js";
import type { DesignContext } from "./designContext.js";
import { documentSymbols, flatSymbols } from "./documentSymbols.js";
import { foldingRanges } from "./folding.js";
import { HeldHints } from "./heldHints.js";
import { hoverSteps } from "./hover/index.js";
import { hintedDocuments, inlayHints, type NoteChanges, resolvedHint } from "./inlayHints.js";
import { inSlices, sliced } from "./inSlices.js";
import { shown } from "./progress.js";
import type { Session } from "./session.js";

export function registerFeatures(session: Session): void {
  const { connection, texts } = session;
  const held = new HeldHints();
  texts.onDidClose(({ document }) => held.forget(document.uri));
  connection.onHover(({ textDocument: { uri }, position }, token) =>
    session.answer("Hover", uri, token, null, (design, stop) => sliced(hoverSteps(design, position), stop)),
  );
  connection.languages.inlayHint.on(({ textDocument: { uri }, range }, token) =>
    session.answer("Inlay hints", uri, token, [], async (design, stop) => {
      // Of the whole file, so that all stay where they are while it cannot be read.
      await inSlices(hintedDocuments(design), design.analysisSteps, stop);
      return held.shown(design, inlayHints(design, undefined, await changesSince(session, design, stop)), range);
    }),
  );
  connection.languages.inlayHint.resolve((hint, token) => {
    const note = notePlace(hint.data);
    if (note === undefined) return hint;
    return session.answer("Inlay hint", note.uri, token, hint, (design, stop) =>
      sliced(resolvedHint(design, hint, note), stop),
    ) as Promise<InlayHint>;
  });
  connection.onCodeLens(({ textDocument: { uri } }, token) =>
    session.answer("Code lenses", uri, token, [], async (design, stop) => {
      await inSlices(summedUpDocuments(design), design.analysisSteps, stop);
      return codeLenses(design);
    }),
  );
  connection.onDocumentSymbol(({ textDocument: { uri } }, token) =>
    session.answer("Outline", uri, token, [], (design) =>
      session.client.hierarchicalSymbols ? documentSymbols(design) : flatSymbols(design),
    ),
  );
  connection.onFoldingRanges(({ textDocument: { uri } }, token) =>
    session.answer("Folding", uri, token, [], foldingRanges),
  );
  connection.onCompletion(({ textDocument: { uri }, position }, token) =>
    session.answer("Completion", uri, token, [], (design) => completion(design, position)),
  );
  connection.onCodeAction(({ textDocument: { uri }, range, context }, token) =>
    session.answer<CodeAction[]>("Code actions", uri, token, [], (design, stop) =>
      codeActions(design, { range, context }, { shouldStop: stop, longWork: session.longWork }),
    ),
  );
  registerResolve(session);
  session.settings.onChange(() => {
    if (session.client.refreshInlayHints) void connection.languages.inlayHint.refresh();
    if (session.client.refreshCodeLens) void connection.sendRequest(CodeLensRefreshRequest.type);
  });
}

/** What notes are compared with while the design stands beside an older text of it. */
async function changesSince(
  session: Session,
  design: DesignContext,
  stop: () => boolean,
): Promise<NoteChanges | undefined> {
  const older = session.olderTexts.get(design.uri);
  if (older === undefined) return undefined;
  const other = otherDesign(design, older);
  await inSlices(other.file.documents, other.analysisSteps, stop);
  await inSlices(design.file.documents, design.analysisSteps, stop);
  return { steps: noteSteps(comparedWith(design, other, stop)), since: older.since };
}

/**
 * An action that cannot be carried out says why, and one that cannot do everything says what stands in the way: silence
 * would look like success.
 */
function registerResolve(session: Session): void {
  session.connection.onCodeActionResolve(async (action, token) => {
    const uri = recipeOf(action)?.uri;
    if (uri === undefined) return action;
    let refusal: CannotRekey | undefined;
    const resolved = await session.answer("Code action", uri, token, action, async (design, stop) => {
      try {
        const {
          action: done,
          message,
          outOfTune,
        } = await shown(session, action.title, (cancelled) =>
          resolveCodeAction(design, action, { shouldStop: () => stop() || cancelled(), longWork: session.longWork }),
        );
        if (message !== "") session.tell(outOfTune > 0 ? MessageType.Warning : MessageType.Info, label(message));
        return done;
      } catch (error) {
        if (!(error instanceof CannotRekey)) throw error;
        refusal = error;
        return action;
      }
    });
    if (refusal !== undefined)
      return new ResponseError<void>(ErrorCodes.InvalidRequest, label(refusal.message)) as never;
    return resolved as CodeAction;
  });
}
