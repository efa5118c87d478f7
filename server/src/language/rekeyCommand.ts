/** The command `borewright.rekey`: what it takes, and what it does to the text. */
import type { WorkspaceEdit } from "vscode-languageserver";
import { rekey } from "../design/rekey.js";
import { CannotRekey, REKEY_METHODS, type RekeyMethod, type RekeyResult } from "../design/rekeyResult.js";
import { type Note, parseNote } from "../music/note.js";
import type { DesignContext } from "./designContext.js";
import { workspaceEdit } from "./edits.js";
import { centsInWords, plain } from "./words.js";

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
  if (typeof uri !== "string") throw new CannotRekey("the command needs the URI of an open design");
  const to = typeof note === "string" ? parseNote(note) : undefined;
  if (to === undefined)
    throw new CannotRekey(`${JSON.stringify(note)} is no note: write one with its octave, such as A4`);
  if (typeof by !== "string" || !METHODS.includes(by))
    throw new CannotRekey(`${JSON.stringify(by)} is no way to rekey: say ${METHODS.join(" or ")}`);
  if (typeof documentIndex !== "number" || !Number.isInteger(documentIndex) || documentIndex < 0)
    throw new CannotRekey(`${JSON.stringify(documentIndex)} is no number of an instrument in the file`);
  return { uri, documentIndex, to, by: by as RekeyMethod };
}

export interface Rekeyed {
  readonly edit: WorkspaceEdit;
  readonly label: string;
  /** What was done, in one line, and what the maker should know of it. */
  readonly message: string;
}

/** @throws CannotRekey, Cancelled */
export function rekeyed(context: DesignContext, request: RekeyRequest, shouldStop: () => boolean): Rekeyed {
  const { documentIndex, to, by } = request;
  const result = rekey(context.file, documentIndex, to, by, context.settings.analysis, { shouldStop });
  return {
    edit: workspaceEdit(context, result.edits),
    label: `Rekey from ${result.from.name} to ${to.name}`,
    message: [summaryOf(result), ...result.remarks].join(" "),
  };
}

function summaryOf({ from, to, by, factor, printScalePercent, after }: RekeyResult): string {
  const size =
    by === "print-scale"
      ? `print at ${plain(printScalePercent, 2)} %`
      : `${by === "refit" ? "the bore's length" : "every dimension"} × ${factor.toFixed(4)}`;
  const worst = after.summary === undefined ? "" : `; worst note ${centsInWords(after.summary.worstCents)}`;
  return `${from.name} to ${to.name}: ${size}${worst}.`;
}
