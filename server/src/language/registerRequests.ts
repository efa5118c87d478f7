/** Requests of our own client, beyond the protocol: the instruments of a file, the result of a rekeying. */
import type { CancellationToken, ResponseError } from "vscode-languageserver";
import { CannotRekey, REKEY_METHODS, type RekeyMethod } from "../design/rekey/rekeyResult.js";
import { label } from "../escape/label.js";
import { t } from "../words/translation.js";
import { summaryOf } from "./codeLens.js";
import { comparedWith, comparisonPage, otherDesign, readOtherText } from "./comparing.js";
import { type DesignContext, fileNameOf } from "./designContext.js";
import { inSlices } from "./inSlices.js";
import type { LongWork } from "./longWork/longWork.js";
import { readRekeyRequest, rekeyed } from "./rekeyCommand.js";
import type { Session } from "./session.js";

export interface InstrumentSummary {
  readonly documentIndex: number;
  readonly name: string;
  readonly key?: string;
  readonly summary: string;
}

export interface RekeyPreview {
  readonly by: RekeyMethod;
  readonly outcome: string;
  readonly possible: boolean;
}

export function registerRequests(session: Session): void {
  const { connection } = session;
  connection.onRequest("borewright/instruments", (params: unknown, token: CancellationToken) =>
    session.answer<InstrumentSummary[]>("Instruments", uriOf(params), token, [], async (design, stop) => {
      await inSlices(design.file.documents, design.analysisSteps, stop);
      return instruments(design, stop);
    }),
  );
  connection.onRequest(
    "borewright/rekeyPreview",
    (params: unknown, token: CancellationToken): Promise<RekeyPreview[] | ResponseError<void>> =>
      session.answer<RekeyPreview[]>("Rekey preview", uriOf(params), token, [], (design, stop) =>
        Promise.all(REKEY_METHODS.map((by) => preview(design, params, by, stop, session.longWork))),
      ),
  );
  connection.onRequest("borewright/compare", (params: unknown, token: CancellationToken) =>
    session.answer<{ readonly markdown: string } | null>(
      "Comparison",
      uriOf(params),
      token,
      null,
      async (design, stop) => {
        const given = readOtherText((params as { old?: unknown } | null)?.old);
        if (given === undefined) return null;
        const other = otherDesign(design, given);
        for (const { file, analysisSteps, findingSteps } of [design, other]) {
          await inSlices(file.documents, analysisSteps, stop);
          await inSlices(file.documents, findingSteps, stop);
        }
        return { markdown: comparisonPage(comparedWith(design, other, stop, [given.name, fileNameOf(design.uri)])) };
      },
    ),
  );
  // A design is now shown beside an older text, or no longer is.
  connection.onNotification("borewright/beside", (params: unknown) => {
    const older = readOtherText((params as { old?: unknown } | null)?.old);
    if (older === undefined) session.olderTexts.delete(uriOf(params));
    else session.olderTexts.set(uriOf(params), older);
    if (session.client.refreshInlayHints) void connection.languages.inlayHint.refresh();
  });
}

function instruments(design: DesignContext, shouldStop: () => boolean): InstrumentSummary[] {
  return design.file.documents
    .filter(({ root }) => root?.kind === "map")
    .map((document) => {
      const { name, key } = document.resolution.instrument;
      return {
        documentIndex: document.index,
        name: label(name?.trim() || t`Instrument ${document.index + 1}`),
        ...(key === undefined ? {} : { key: key.name }),
        summary: label(summaryOf(design.analysis(document, shouldStop))),
      };
    });
}

async function preview(
  design: DesignContext,
  params: unknown,
  by: RekeyMethod,
  stop: () => boolean,
  longWork: LongWork,
): Promise<RekeyPreview> {
  try {
    const request = readRekeyRequest([{ ...(params as object), by }]);
    // The question names the keys, and a line of a list is short.
    const { change } = await rekeyed(design, request, stop, longWork);
    return { by, possible: true, outcome: label(change) };
  } catch (error) {
    if (error instanceof CannotRekey) return { by, possible: false, outcome: label(error.message) };
    throw error;
  }
}

function uriOf(params: unknown): string {
  const uri = (params as { uri?: unknown } | null | undefined)?.uri;
  return typeof uri === "string" ? uri : "";
}
