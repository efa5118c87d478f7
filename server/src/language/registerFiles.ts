/** Requests about files that the maker chose: a model to survey, a recording to listen to. */
import type { CancellationToken } from "vscode-languageserver";
import { CannotRekey } from "../design/rekey/rekeyResult.js";
import { applyEdits } from "../document/edits.js";
import { label } from "../escape/label.js";
import { fromBase64 } from "../protocol/base64.js";
import {
  LISTEN_TO,
  type ListenAnswer,
  type ListenQuestion,
  SURVEY_MODEL,
  type SurveyAnswer,
  type SurveyQuestion,
} from "../protocol/filesOfMakers.js";
import { t } from "../words/translation.js";
import { workspaceEdit } from "./edits.js";
import { jobOn } from "./longWork/jobOn.js";
import type { Session } from "./session.js";
import { INITIAL_SETTINGS } from "./settings.js";

export function registerFiles(session: Session): void {
  const { connection } = session;
  connection.onRequest(SURVEY_MODEL, async (params: unknown, token: CancellationToken): Promise<SurveyAnswer> => {
    const { file, base64 } = (params ?? {}) as Partial<SurveyQuestion>;
    if (typeof file !== "string") return { message: t("Which model? The request names no file.") };
    const job = { text: "", syntax: "yaml", documentIndex: 0, settings: INITIAL_SETTINGS.analysis } as const;
    try {
      const work = { do: "survey", file, ...given(base64) } as const;
      const { edits, message } = await session.longWork.run({ ...job, work }, () => token.isCancellationRequested);
      const name = file.replace(/^.*[\\/]/, "").replace(/\.\w+$/, "");
      return { text: applyEdits("", edits), name, message: label(message) };
    } catch (error) {
      if (error instanceof CannotRekey) return { message: label(t`It cannot be surveyed. ${error.message}`) };
      throw error;
    }
  });
  connection.onRequest(LISTEN_TO, async (params: unknown, token: CancellationToken) => {
    const { uri, documentIndex = 0, file, base64, temperature } = (params ?? {}) as Partial<ListenQuestion>;
    if (typeof uri !== "string" || typeof file !== "string") return said(t("Which recording, of which design?"));
    const work = {
      do: "listen",
      file,
      ...given(base64),
      ...(typeof temperature === "number" ? { temperature } : {}),
    } as const;
    return session.answer<ListenAnswer>(
      "Listening",
      uri,
      token,
      said(t("That design is not open.")),
      async (design, stop) => {
        try {
          const { edits, message } = await session.longWork.run(jobOn(design, documentIndex, work), stop);
          const edit = workspaceEdit(design, edits);
          const { applied } = await connection.workspace.applyEdit({ label: t("Measured notes"), edit });
          return { applied, message: label(message) };
        } catch (error) {
          if (error instanceof CannotRekey) return said(label(error.message));
          throw error;
        }
      },
    );
  });
}

function given(base64: unknown): { readonly bytes?: Uint8Array } {
  return typeof base64 === "string" ? { bytes: fromBase64(base64) } : {};
}

function said(message: string): ListenAnswer {
  return { applied: false, message };
}
