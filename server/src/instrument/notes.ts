/** Reads the notes of a design. */
import { type Note, parseNote, rangeOfNotes } from "../music/note.js";
import { t } from "../words/translation.js";
import type { Finding, Path } from "./finding.js";

/** The note written at `path`; undefined with a finding where it cannot be read, without one where it is not text at all. */
export function readNote(value: unknown, path: Path, findings: Finding[]): Note | undefined {
  if (typeof value !== "string") return undefined;
  const note = parseNote(value);
  if (note === undefined) findings.push(unreadable(value, path));
  return note;
}

function unreadable(value: string, path: Path): Finding {
  const text = value.trim();
  if (/^[A-Ga-g](#{0,2}|b{0,2}|♯|♭)-?\d{1,2}$/.test(text)) {
    const [lowest, highest] = rangeOfNotes();
    const message = t`${text} is beyond what a wind instrument plays: notes go from ${lowest} to ${highest}, and A4 is the pitch standard.`;
    return { code: "note/out-of-range", severity: "error", message, path };
  }
  const withoutOctave = /^[A-Ga-g](#|b|♯|♭)?$/.test(text);
  const german = /^[hH](\d?)$/.exec(text);
  const meant = withoutOctave
    ? `${text.charAt(0).toUpperCase()}${text.slice(1)}4`
    : german
      ? `B${german[1] || "4"}`
      : undefined;
  const help = withoutOctave
    ? t`Add the octave: ${meant} is the one from middle C upward.`
    : german
      ? t`The note below C is written B: ${meant}.`
      : t("Write a letter, # or b, and the octave: G4, Bb3, F#5.");
  const shown = text.length > 20 ? `${text.slice(0, 19)}…` : text;
  const correction = meant === undefined ? {} : { correction: { do: "write", text: meant } as const };
  return {
    code: "note/unreadable",
    severity: "error",
    message: t`\`${shown}\` is not a note. ${help}`,
    path,
    ...correction,
  };
}
