import type { Finding } from "../finding.js";
import type { Fingering, MeasuredNote } from "../model.js";

/** A measured note is compared with the prediction for its fingering: there is one. */
export function checkMeasured(measured: readonly MeasuredNote[], fingerings: readonly Fingering[]): readonly Finding[] {
  // A design that lists none itself is only begun: its key stands in.
  if (fingerings.every(({ path }) => path[0] === "key")) return [];
  const played = new Set(fingerings.flatMap(({ target, covers }) => (covers && target ? [target.midi] : [])));
  return measured.flatMap(({ note, covers, path }): readonly Finding[] => {
    if (covers !== undefined || played.has(note.midi)) return [];
    const message = `The design has no fingering for ${note.name}, so that this measured note calibrates nothing. Add one, draw \`holes\` beside the note, or correct it.`;
    return [{ code: "measured/no-fingering", severity: "information", message, path: [...path, "note"] }];
  });
}
