/**
 * Runs the work of a request so that it can be cancelled, never answers for a text that has since changed, and never
 * brings the server down.
 */
import { type CancellationToken, LSPErrorCodes, ResponseError } from "vscode-languageserver";
import { Cancelled } from "../acoustics/cancelled.js";
import { isNews, stackOf } from "../instrument/contained.js";
import { t } from "../words/translation.js";
import { nextTurn } from "./turns.js";

export interface GuardedRequest<T> {
  /** Shown in the log when the work fails. */
  readonly name: string;
  readonly token: CancellationToken;
  /** Whether the text that the request is about has changed or gone; asked after every wait. */
  readonly isStale: () => boolean;
  readonly fallback: T;
  readonly log: (message: string) => void;
  readonly work: (shouldStop: () => boolean) => T | Promise<T>;
}

/** The result of the work; an error the protocol knows where it was cancelled or overtaken; the fallback where it failed. */
export async function guarded<T>(request: GuardedRequest<T>): Promise<T | ResponseError<void>> {
  const { token, isStale, fallback } = request;
  try {
    await letMessagesIn();
    if (token.isCancellationRequested) return cancelled();
    if (isStale()) return overtaken();
    const result = await request.work(() => token.isCancellationRequested || isStale());
    if (token.isCancellationRequested) return cancelled();
    return isStale() ? overtaken() : result;
  } catch (error) {
    if (error instanceof Cancelled) return isStale() && !token.isCancellationRequested ? overtaken() : cancelled();
    if (isNews(error)) request.log(`${request.name} failed: ${stackOf(error)}`);
    return fallback;
  }
}

/**
 * Two turns of the event loop: the first ends the one that delivered this request, the second reads what has come in
 * since, so that a cancellation or a newer text is known before any work starts.
 */
async function letMessagesIn(): Promise<void> {
  for (let turn = 0; turn < 2; turn++) await nextTurn();
}

function cancelled(): ResponseError<void> {
  return new ResponseError<void>(LSPErrorCodes.RequestCancelled, "cancelled");
}

function overtaken(): ResponseError<void> {
  return new ResponseError<void>(LSPErrorCodes.ContentModified, t("the text has changed since"));
}
