/** The requests of the bore view. */
import type { CancellationToken } from "vscode-languageserver";
import type { Steps } from "../../acoustics/steps.js";
import { REKEY_METHODS, type RekeyMethod } from "../../design/rekey/rekeyResult.js";
import type { DesignDocument } from "../../document/designFile.js";
import { readingOf, syntaxOf } from "../../document/read.js";
import type { Path } from "../../instrument/finding.js";
import {
  BORE_VIEW,
  type BoreViewAnswer,
  FIXES,
  type FixesAnswer,
  PROPOSAL,
  type ProposalAnswer,
  type ProposedChange,
  RESPONSE,
  type ResponseAnswer,
  TRY_NUMBER,
  type TrialAnswer,
} from "../../protocol/boreView.js";
import { t } from "../../words/translation.js";
import { type DesignContext, documentAt, fileNameOf } from "../designContext.js";
import { designContext } from "../designs.js";
import { sliced } from "../inSlices.js";
import type { Session } from "../session.js";
import { boreViewSteps } from "./data.js";
import { fixesAt, proposal } from "./proposal.js";
import { responseAnswerSteps } from "./response.js";
import { tryNumberSteps } from "./tryNumber.js";

export function registerBoreView(session: Session): void {
  const { connection } = session;
  connection.onRequest(BORE_VIEW, (params: unknown, token: CancellationToken) => {
    const { uri, documentIndex, offset, brief } = fieldsOf(params);
    return session.answer<BoreViewAnswer>("Bore view", textOf(uri), token, {}, (design, stop) => {
      const index = wholeNumber(documentIndex);
      const document =
        index === undefined ? documentAt(design.file, wholeNumber(offset) ?? 0) : design.file.documents[index];
      return document === undefined
        ? { trouble: t("There is no instrument in this file yet.") }
        : sliced(boreViewSteps(design, document, brief === true), stop);
    });
  });
  connection.onRequest(TRY_NUMBER, (params: unknown, token: CancellationToken) => {
    const { uri, version, documentIndex, path, value } = fieldsOf(params);
    return session.answer<TrialAnswer>("Trial", textOf(uri), token, { edits: [] }, (design, stop) => {
      if (design.version !== version) return { edits: [], refused: t("The text has changed meanwhile.") };
      if (!isPath(path) || typeof value !== "number" || !Number.isFinite(value))
        return { edits: [], refused: t("This is not a number of the design.") };
      const trial = { path, value, documentIndex: wholeNumber(documentIndex) ?? 0 };
      return sliced(tryNumberSteps(design, trial, reopening(design)), stop);
    });
  });
  registerAnswers(session);
}

/** What is asked for of an instrument in a version of the text, beyond its drawing. */
function registerAnswers(session: Session): void {
  const { connection } = session;
  const none: ResponseAnswer = {
    row: 0,
    curve: [],
    strength: undefined,
    quality: undefined,
    cutOffHz: undefined,
    stretch: undefined,
    breath: undefined,
  };
  const asked = (params: unknown) => {
    const { uri, version, documentIndex, row, change } = fieldsOf(params);
    const index = wholeNumber(documentIndex) ?? 0;
    const document = (design: DesignContext) => (design.version === version ? design.file.documents[index] : undefined);
    return { uri: textOf(uri), document, row: wholeNumber(row) ?? 0, change };
  };
  connection.onRequest(RESPONSE, (params: unknown, token: CancellationToken) => {
    const { uri, document, row } = asked(params);
    return session.answer<ResponseAnswer>("Response", uri, token, none, (design, stop) => {
      const own = document(design);
      return own === undefined ? none : sliced(responseSteps(design, own, row), stop);
    });
  });
  connection.onRequest(FIXES, (params: unknown, token: CancellationToken) => {
    const { uri, document, row } = asked(params);
    return session.answer<FixesAnswer>("Fixes", uri, token, { titles: [] }, async (design, stop) => {
      const own = document(design);
      if (own === undefined) return { titles: [] };
      return { titles: (await fixesAt(design, own, row, stop)).map(({ title }) => title) };
    });
  });
  connection.onRequest(PROPOSAL, (params: unknown, token: CancellationToken) => {
    const { uri, document, change } = asked(params);
    const gone = { edits: [], title: "", says: [], refused: t("The text has changed meanwhile.") };
    return session.answer<ProposalAnswer>("Proposal", uri, token, gone, async (design, stop) => {
      const own = document(design);
      if (own === undefined) return gone;
      if (!isChange(change)) return { ...gone, refused: t("This is not a change to a design.") };
      const working = { longWork: session.longWork, shouldStop: stop, reopened: reopening(design) };
      return proposal(design, own, change, working);
    });
  });
}

function* responseSteps(design: DesignContext, document: DesignDocument, row: number): Steps<ResponseAnswer> {
  return yield* responseAnswerSteps(yield* design.analysisSteps(document), row);
}

/** The same file with another text, in the same settings: what did not change is taken over. */
function reopening({ uri, version, settings, client, file }: DesignContext) {
  return function* (text: string): Steps<DesignContext> {
    const changed = yield* readingOf(text, syntaxOf(fileNameOf(uri)), file);
    return designContext({ uri, version, getText: () => text }, settings, client, changed);
  };
}

function isChange(value: unknown): value is ProposedChange {
  const { do: what, freedom, to, by, row, title } = fieldsOf(value);
  if (what === "retune") return freedom === "all" || freedom === "holes";
  if (what === "rekey") return typeof to === "string" && REKEY_METHODS.includes(by as RekeyMethod);
  return what === "fix" && wholeNumber(row) !== undefined && typeof title === "string";
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
