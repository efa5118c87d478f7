/** Answers `borewright/make` and `borewright/solid`: the files of a design, made on the thread for long work. The client decides where they go. */
import type { CancellationToken, ResponseError } from "vscode-languageserver";
import { label } from "../escape/label.js";
import { toBase64 } from "../protocol/base64.js";
import { MAKE, MAKE_FORMATS, type MakeAnswer, type Makeable, SOLID, type SolidAnswer } from "../protocol/making.js";
import { t } from "../words/translation.js";
import { jobOn } from "./longWork/jobOn.js";
import type { MakeOutcome, MakeWork } from "./longWork/making.js";
import type { Session } from "./session.js";

export function registerMaking(session: Session): void {
  session.connection.onRequest(
    MAKE,
    (params: unknown, token: CancellationToken): Promise<MakeAnswer | ResponseError<void>> => {
      const question = readQuestion(params);
      if (question === undefined) return Promise.resolve(refused(t("The request is not understood.")));
      const { uri, documentIndex, work } = question;
      const nothing = refused(t("It could not be made; see the output channel Borewright."));
      return session.answer<MakeAnswer>("Making", uri, token, nothing, async (design, shouldStop) =>
        answerOf(await session.longWork.run(jobOn(design, documentIndex, work), shouldStop)),
      );
    },
  );
}

export function registerSolid(session: Session): void {
  session.connection.onRequest(
    SOLID,
    (params: unknown, token: CancellationToken): Promise<SolidAnswer | ResponseError<void>> => {
      const { uri, documentIndex } = (params ?? {}) as Record<string, unknown>;
      const nothing = { parts: [], refused: t("The solid could not be made; see the output channel Borewright.") };
      if (typeof uri !== "string" || typeof documentIndex !== "number") return Promise.resolve(nothing);
      return session.answer<SolidAnswer>("Solid", uri, token, nothing, async (design, shouldStop) => {
        const outcome = await session.longWork.run(jobOn(design, documentIndex, { do: "show" }), shouldStop);
        if ("refused" in outcome)
          return { parts: [], refused: label(outcome.refused.map(({ message }) => message).join(" ")) };
        return {
          parts: outcome.parts.map(({ name, vertices, triangles }) => ({
            name,
            vertices: base64(vertices),
            triangles: base64(triangles),
          })),
        };
      });
    },
  );
}

function base64({ buffer, byteOffset, byteLength }: Float32Array | Uint32Array): string {
  return toBase64(new Uint8Array(buffer, byteOffset, byteLength));
}

function answerOf(outcome: MakeOutcome): MakeAnswer {
  if ("refused" in outcome) {
    const reasons = [...outcome.refused].sort((a, b) => (a.span?.start ?? 0) - (b.span?.start ?? 0));
    return {
      files: [],
      refused: reasons.map(({ message, span }) => ({ message: label(message), start: span?.start })),
    };
  }
  const { files, sheet } = outcome;
  return {
    files: files.map(({ suffix, bytes }) => ({ suffix, base64: toBase64(bytes) })),
    sheet,
  };
}

function readQuestion(
  params: unknown,
): { readonly uri: string; readonly documentIndex: number; readonly work: MakeWork } | undefined {
  const { uri, documentIndex, what, format } = (params ?? {}) as Record<string, unknown>;
  if (typeof uri !== "string" || typeof documentIndex !== "number" || !isMakeable(what)) return undefined;
  if (!(MAKE_FORMATS[what] as readonly unknown[]).includes(format)) return undefined;
  return { uri, documentIndex, work: { do: "make", what, format } as MakeWork };
}

function isMakeable(what: unknown): what is Makeable {
  return typeof what === "string" && Object.hasOwn(MAKE_FORMATS, what);
}

function refused(message: string): MakeAnswer {
  return { files: [], refused: [{ message }] };
}
