/** Checks a note as it is typed; the server has the last word. */
import { l10n } from "vscode";

const NOTE = /^\s*[A-Ga-g](#{1,2}|b{1,2}|♯|♭)?-?\d{1,2}\s*$/;

/** What is wrong with the text, or undefined where nothing is. */
export function noteProblem(text: string): string | undefined {
  if (NOTE.test(text)) return undefined;
  if (text.trim() === "") return l10n.t("Write a note with its octave, such as A4, Bb3 or F#5.");
  if (/^\s*[A-Ga-g][#b♯♭]*\s*$/.test(text)) return l10n.t("Which octave? For example {0}4.", text.trim());
  return l10n.t(
    "{0} is not a note. Write a letter from A to G, # or b if need be, and the octave: A4, Bb3, F#5.",
    text.trim(),
  );
}
