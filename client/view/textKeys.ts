/** Keys that mean the text beside the view: a maker who has dragged a hole takes it back, or saves it, where the hands are. */

export type TextKey = "undo" | "redo" | "save";

/** The relevant parts of a key press. */
interface Key {
  readonly key: string;
  readonly ctrlKey: boolean;
  readonly metaKey: boolean;
  readonly shiftKey: boolean;
  readonly altKey: boolean;
}

/** What a key does to the text; undefined where it does not concern the text. */
export function textKey({ key, ctrlKey, metaKey, shiftKey, altKey }: Key): TextKey | undefined {
  if (ctrlKey === metaKey || altKey) return undefined;
  switch (key.toLowerCase()) {
    case "z":
      return shiftKey ? "redo" : "undo";
    case "y":
      return ctrlKey && !shiftKey ? "redo" : undefined;
    case "s":
      return shiftKey ? undefined : "save";
    default:
      return undefined;
  }
}
