/** Language clients that say in full why an action cannot be carried out. The library would say only that a request failed. */
import {
  type BaseLanguageClient,
  CodeActionResolveRequest,
  ErrorCodes,
  type MessageSignature,
  ResponseError,
} from "vscode-languageclient";
import { tellTrouble } from "./notify.js";

/** The client given, which from now on says it. */
export function telling<Client extends BaseLanguageClient>(client: Client): Client {
  const failed = client.handleFailedRequest.bind(client);
  client.handleFailedRequest = (type, token, error, defaultValue, showNotification) =>
    isTold(type, error) ? defaultValue : failed(type, token, error, defaultValue, showNotification);
  return client;
}

/** Whether the maker has been told why the request failed. */
function isTold({ method }: MessageSignature, error: unknown): boolean {
  const isRefusal = error instanceof ResponseError && error.code === ErrorCodes.InvalidRequest;
  if (!isRefusal || method !== CodeActionResolveRequest.method) return false;
  tellTrouble(error.message);
  return true;
}
