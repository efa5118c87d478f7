/** Carries out `borewright.rekey`: works out the edit, with progress to see, and asks the client to apply it. */

import {
  type CancellationToken,
  LSPErrorCodes,
  ResponseError,
  type WorkDoneProgressReporter,
} from "vscode-languageserver";
import { Cancelled } from "../../acoustics/cancelled.js";
import { CannotRekey } from "../../design/rekey/rekeyResult.js";
import { label } from "../../escape/label.js";
import { t } from "../../words/translation.js";
import { type Rekeyed, type RekeyRequest, readRekeyRequest, rekeyed } from "../rekeyCommand.js";
import type { Session } from "../session.js";
import type { CommandHandler } from "./handler.js";

/** What the command answers: whether the text was changed, and what to tell the maker. */
export interface RekeyAnswer {
  readonly applied: boolean;
  readonly message: string;
}

export const rekey: CommandHandler = async (session, args, token, progress) => {
  try {
    return await carryOut(session, readRekeyRequest(args), token, progress);
  } catch (error) {
    return refusal(session, error);
  }
};

async function carryOut(
  session: Session,
  request: RekeyRequest,
  token: CancellationToken,
  progress: WorkDoneProgressReporter,
): Promise<RekeyAnswer | ResponseError<void>> {
  progress.begin(t`Rekeying to ${request.to.name}`, undefined, undefined, true);
  try {
    const found = await session.answer<Found>("Rekey", request.uri, token, "no design", async (design, stop) => {
      try {
        return await rekeyed(design, request, stop, session.longWork);
      } catch (error) {
        if (error instanceof CannotRekey) return error;
        throw error;
      }
    });
    if (found === "no design") throw new CannotRekey(t("that design is not open, or could not be calculated"));
    if (found instanceof CannotRekey) throw found;
    if (found instanceof ResponseError) return found;
    const { applied, failureReason } = await session.connection.workspace.applyEdit({
      label: found.label,
      edit: found.edit,
    });
    if (applied) return { applied, message: label(found.message) };
    return { applied, message: t`The editor did not take the change${failureReason ? `: ${failureReason}` : "."}` };
  } finally {
    progress.done();
  }
}

type Found = Rekeyed | CannotRekey | "no design";

function refusal(session: Session, error: unknown): ResponseError<void> {
  if (error instanceof CannotRekey) return new ResponseError<void>(LSPErrorCodes.RequestFailed, label(error.message));
  if (error instanceof Cancelled) return new ResponseError<void>(LSPErrorCodes.RequestCancelled, "cancelled");
  session.log(`Rekey failed: ${error instanceof Error ? error.stack : String(error)}`);
  return new ResponseError<void>(LSPErrorCodes.RequestFailed, t("Rekeying failed; see the output channel Borewright."));
}
