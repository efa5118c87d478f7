/** The command `borewright.rekey`: what it takes, and what it does to the text. */
import type { WorkspaceEdit } from "vscode-languageserver";
import { CannotRekey, REKEY_METHODS, type RekeyMethod } from "../design/rekey/rekeyResult.js";
import { type Note, parseNote } from "../music/note.js";
import { t } from "../words/translation.js";
import type { DesignContext } from "./designContext.js";
import { workspaceEdit } from "./edits.js";
import { jobOn } from "./longWork/jobOn.js";
import { inThisThread, type LongWork } from "./longWork/longWork.js";

export interface RekeyRequest {
  readonly uri: string;
  readonly documentIndex: number;
  readonly to: Note;
  readonly by: RekeyMethod;
}

const METHODS: readonly string[] = REKEY_METHODS;

/**
 * Reads the command's one argument, `{uri, documentIndex, note, by}`, or the same four one after the other.
 * @throws CannotRekey saying what is wrong with it
 */
export function readRekeyRequest(args: readonly unknown[] | undefined): RekeyRequest {
  const [first, second, third, fourth] = args ?? [];
  const given =
    typeof first === "object" && first !== null
      ? (first as Record<string, unknown>)
      : { uri: first, documentIndex: second, note: third, by: fourth };
  const { uri, documentIndex = 0, note, by = "print-scale" } = given;
  if (typeof uri !== "string") throw new CannotRekey(t("the command needs the URI of an open design"));
  const to = typeof note === "string" ? parseNote(note) : undefined;
  if (to === undefined)
    throw new CannotRekey(t`${JSON.stringify(note)} is not a note: write one with its octave, such as A4`);
  if (typeof by !== "string" || !METHODS.includes(by))
    throw new CannotRekey(t`${JSON.stringify(by)} is not a way to rekey: say ${METHODS.join(t(" or "))}`);
  if (typeof documentIndex !== "number" || !Number.isInteger(documentIndex) || documentIndex < 0)
    throw new CannotRekey(t`${JSON.stringify(documentIndex)} is not the number of an instrument in the file`);
  return { uri, documentIndex, to, by: by as RekeyMethod };
}

export interface Rekeyed {
  readonly edit: WorkspaceEdit;
  readonly label: string;
  /** What was done, in one line, and what the maker should know about it. */
  readonly message: string;
  /** The same without the keys that it begins with. */
  readonly change: string;
}

/** Rejects with CannotRekey, Cancelled. */
export async function rekeyed(
  context: DesignContext,
  request: RekeyRequest,
  shouldStop: () => boolean,
  longWork: LongWork = inThisThread,
): Promise<Rekeyed> {
  const { documentIndex, to, by } = request;
  const job = jobOn(context, documentIndex, { do: "rekey", to: to.name, by });
  const outcome = await longWork.run(job, shouldStop);
  const { edits, from, message, change = message } = outcome;
  const label = by === "refit" ? t`Refit from ${from} to ${to.name}` : t`Rekey from ${from} to ${to.name}`;
  const edit = workspaceEdit(context, edits, by === "refit" ? { ...outcome, label } : undefined);
  return { edit, label, message, change };
}
