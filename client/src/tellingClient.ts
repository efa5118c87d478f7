/** A language client that says in full why an action cannot be carried out. The library would say only that a request failed. */
import type { CancellationToken, MessageSignature } from "vscode-languageclient/node";
import { CodeActionResolveRequest, ErrorCodes, LanguageClient, ResponseError } from "vscode-languageclient/node";
import { tellTrouble } from "./notify.js";

export class TellingClient extends LanguageClient {
  override handleFailedRequest<T>(
    type: MessageSignature,
    token: CancellationToken | undefined,
    error: unknown,
    defaultValue: T,
    showNotification?: boolean,
  ): T {
    const isRefusal = error instanceof ResponseError && error.code === ErrorCodes.InvalidRequest;
    if (!isRefusal || type.method !== CodeActionResolveRequest.method)
      return super.handleFailedRequest(type, token, error, defaultValue, showNotification);
    tellTrouble(error.message);
    return defaultValue;
  }
}
