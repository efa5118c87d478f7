/** The client in Node: its server is a process of its own. */
import { homedir } from "node:os";
import { LanguageClient, TransportKind } from "vscode-languageclient/node";
import type { Platform } from "../platform.js";
import { telling } from "../tellingClient.js";

export const home: Platform["home"] = homedir();

export const createClient: Platform["createClient"] = (context, id, name, options) => {
  // The same program as on the command line: one engine in the package.
  const run = { module: context.asAbsolutePath("dist/cli.cjs"), args: ["serve"], transport: TransportKind.ipc };
  const server = { run, debug: { ...run, options: { execArgv: ["--nolazy", "--inspect=6009"] } } };
  return telling(new LanguageClient(id, name, server, options));
};
