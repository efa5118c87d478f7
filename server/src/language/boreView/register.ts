/** The requests of the bore view. */
import type { CancellationToken } from "vscode-languageserver";
import { REKEY_METHODS, type RekeyMethod } from "../../design/rekey/rekeyResult.js";
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
import { type DesignContext, documentAt } from "../designContext.js";
import { designContext } from "../designs.js";
import { inSlices } from "../inSlices.js";
import type { Session } from "../session.js";
import { boreViewAnswer } from "./data.js";
import { fixesAt, proposal } from "./proposal.js";
import { responseAnswer } from "./response.js";
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
      return tryNumber(
        design,
        { path, value, documentIndex: wholeNumber(documentIndex) ?? 0 },
        reopening(design),
        stop,
      );
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
  };
  const asked = (params: unknown) => {
    const { uri, version, documentIndex, row, change } = fieldsOf(params);
    const index = wholeNumber(documentIndex) ?? 0;
    const document = (design: DesignContext) => (design.version === version ? design.file.documents[index] : undefined);
    return { uri: textOf(uri), document, row: wholeNumber(row) ?? 0, change };
  };
  connection.onRequest(RESPONSE, (params: unknown, token: CancellationToken) => {
    const { uri, document, row } = asked(params);
    return session.answer<ResponseAnswer>("Response", uri, token, none, async (design, stop) => {
      const own = document(design);
      if (own === undefined) return none;
      await inSlices([own], design.analysisSteps, stop);
      return responseAnswer(design.analysis(own, stop), row);
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
    const gone = { edits: [], title: "", says: [], refused: "The text has changed meanwhile." };
    return session.answer<ProposalAnswer>("Proposal", uri, token, gone, async (design, stop) => {
      const own = document(design);
      if (own === undefined) return gone;
      if (!isChange(change)) return { ...gone, refused: "This is no change of a design." };
      const working = { longWork: session.longWork, shouldStop: stop, reopened: reopening(design) };
      return proposal(design, own, change, working);
    });
  });
}

function reopening({ uri, version, settings, client }: DesignContext) {
  return (text: string) => designContext({ uri, version, getText: () => text }, settings, client);
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
