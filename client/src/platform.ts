/** Where the extension runs: in Node, on this machine or a remote one, or in a browser's worker. */
import type { ExtensionContext } from "vscode";
import type { BaseLanguageClient as LanguageClient, LanguageClientOptions } from "vscode-languageclient";

export interface Platform {
  /** The user's home folder; none in a browser. */
  readonly home: string | undefined;
  /** The client of a language server that it starts. @param id the section of the settings */
  createClient(context: ExtensionContext, id: string, name: string, options: LanguageClientOptions): LanguageClient;
}
