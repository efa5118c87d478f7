/** The client in Node: its server is a process of its own. */
import type { CancellationToken } from "vscode";
import { LanguageClient, type MessageSignature, TransportKind } from "vscode-languageclient/node";
import type { Platform } from "../platform.js";
import { isTold } from "../tellingClient.js";

class TellingClient extends LanguageClient {
  override handleFailedRequest<T>(
    type: MessageSignature,
    token: CancellationToken | undefined,
    error: unknown,
    defaultValue: T,
    showNotification?: boolean,
  ): T {
    if (isTold(type, error)) return defaultValue;
    return super.handleFailedRequest(type, token, error, defaultValue, showNotification);
  }
}

export const createClient: Platform["createClient"] = (context, id, name, options) => {
  // The same program as on the command line: one engine in the package.
  const run = { module: context.asAbsolutePath("dist/cli.cjs"), args: ["serve"], transport: TransportKind.ipc };
  const server = { run, debug: { ...run, options: { execArgv: ["--nolazy", "--inspect=6009"] } } };
  return new TellingClient(id, name, server, options);
};
