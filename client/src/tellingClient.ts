/** Language clients that say in full why an action cannot be carried out. The library would say only that a request failed. */
import {
  type BaseLanguageClient,
  CodeActionResolveRequest,
  ErrorCodes,
  type MessageSignature,
  ResponseError,
} from "vscode-languageclient";
import { tellTrouble } from "./notify.js";

export type FailedRequest = Parameters<BaseLanguageClient["handleFailedRequest"]>;

/** Whether the maker has been told why the request failed. */
export function isTold({ method }: MessageSignature, error: unknown): boolean {
  const isRefusal = error instanceof ResponseError && error.code === ErrorCodes.InvalidRequest;
  if (!isRefusal || method !== CodeActionResolveRequest.method) return false;
  tellTrouble(error.message);
  return true;
}
