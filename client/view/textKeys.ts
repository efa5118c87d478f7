/** Keys that mean the text beside the view: a maker who has dragged a hole takes it back, or saves it, where the hands are. */

export type TextKey = "undo" | "redo" | "save";

/** What counts of a key that is pressed. */
interface Key {
  readonly key: string;
  readonly ctrlKey: boolean;
  readonly metaKey: boolean;
  readonly shiftKey: boolean;
  readonly altKey: boolean;
}

/** What of the text a key asks for; undefined where it is nothing of the text's. */
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
