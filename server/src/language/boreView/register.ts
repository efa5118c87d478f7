/** The requests of the bore view. */
import type { CancellationToken } from "vscode-languageserver";
import type { Path } from "../../instrument/finding.js";
import { BORE_VIEW, type BoreViewAnswer, TRY_NUMBER, type TrialAnswer } from "../../protocol/boreView.js";
import { documentAt } from "../designContext.js";
import { designContext } from "../designs.js";
import type { Session } from "../session.js";
import { boreViewAnswer } from "./data.js";
import { tryNumber } from "./tryNumber.js";

export function registerBoreView(session: Session): void {
  const { connection } = session;
  connection.onRequest(BORE_VIEW, (params: unknown, token: CancellationToken) => {
    const { uri, documentIndex, offset } = fieldsOf(params);
    return session.answer<BoreViewAnswer>("Bore view", textOf(uri), token, {}, (design, stop) => {
      const index = wholeNumber(documentIndex);
      const document =
        index === undefined ? documentAt(design.file, wholeNumber(offset) ?? 0) : design.file.documents[index];
      return document === undefined
        ? { trouble: "There is no instrument in this file yet." }
        : boreViewAnswer(design, document, stop);
    });
  });
  connection.onRequest(TRY_NUMBER, (params: unknown, token: CancellationToken) => {
    const { uri, version, documentIndex, path, value } = fieldsOf(params);
    return session.answer<TrialAnswer>("Trial", textOf(uri), token, { edits: [] }, (design, stop) => {
      if (design.version !== version) return { edits: [], refused: "The text has changed meanwhile." };
      if (!isPath(path) || typeof value !== "number" || !Number.isFinite(value))
        return { edits: [], refused: "This is no number of the design." };
      const { settings, client } = design;
      const reopened = (text: string) =>
        designContext({ uri: design.uri, version: design.version, getText: () => text }, settings, client);
      return tryNumber(design, { path, value, documentIndex: wholeNumber(documentIndex) ?? 0 }, reopened, stop);
    });
  });
}

function fieldsOf(params: unknown): Readonly<Record<string, unknown>> {
  return typeof params === "object" && params !== null ? (params as Record<string, unknown>) : {};
}

function textOf(value: unknown): string {
  return typeof value === "string" ? value : "";
}

function wholeNumber(value: unknown): number | undefined {
  return Number.isInteger(value) && (value as number) >= 0 ? (value as number) : undefined;
}

function isPath(value: unknown): value is Path {
  return Array.isArray(value) && value.every((step) => typeof step === "string" || typeof step === "number");
}
