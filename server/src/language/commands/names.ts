/** The commands that the server carries out, for any client. */
export const REKEY_COMMAND = "borewright.rekey";
/** Puts one note right by the fix that the light bulb prefers. Argument: {@link NotePlace}. */
export const FIX_NOTE_COMMAND = "borewright.fixNote";
/** Goes to the note farthest out. Argument: `uri` and `documentIndex`. */
export const SHOW_WORST_COMMAND = "borewright.showWorstNote";

export const SERVER_COMMANDS = [REKEY_COMMAND, FIX_NOTE_COMMAND, SHOW_WORST_COMMAND];

/** One fingering of one version of a design. */
export interface NotePlace {
  readonly uri: string;
  /** The text it was offered for. */
  readonly textName: string;
  readonly documentIndex: number;
  readonly fingering: number;
}

/** The place in a command's one argument or a hint's data, which came back from the client; undefined where it is not one. */
export function notePlace(given: unknown): NotePlace | undefined {
  const { uri, textName, documentIndex, fingering } = (given ?? {}) as Partial<Record<keyof NotePlace, unknown>>;
  if (typeof uri !== "string" || typeof textName !== "string") return undefined;
  return typeof documentIndex === "number" && typeof fingering === "number"
    ? { uri, textName, documentIndex, fingering }
    : undefined;
}
