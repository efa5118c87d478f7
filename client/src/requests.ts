/** What this client and its server say to each other beyond the language server protocol. */
import type { CancellationToken } from "vscode";
import type { BaseLanguageClient as LanguageClient } from "vscode-languageclient";

/** One instrument of a file, as `borewright/instruments` describes it. */
export interface InstrumentSummary {
  readonly documentIndex: number;
  readonly name: string;
  readonly key?: string;
  /** In words: family, fingerings, the worst deviation. */
  readonly summary: string;
}

export function instrumentsOf(client: LanguageClient, uri: string): Promise<readonly InstrumentSummary[]> {
  return client.sendRequest("borewright/instruments", { uri });
}

/** The result of one way of rekeying, as `borewright/rekeyPreview` works it out. */
export interface RekeyPreview {
  readonly by: "print-scale" | "redraw" | "refit";
  /** The numbers, or why it cannot be done. */
  readonly outcome: string;
  readonly possible: boolean;
}

export interface RekeyQuestion {
  readonly uri: string;
  readonly documentIndex: number;
  readonly note: string;
}

export function previewRekey(
  client: LanguageClient,
  question: RekeyQuestion,
  token: CancellationToken,
): Promise<readonly RekeyPreview[]> {
  return client.sendRequest("borewright/rekeyPreview", question, token);
}
