import { t } from "../../words/translation.js";
import type { Finding } from "../finding.js";
import type { Fingering, MeasuredNote } from "../model.js";
import type { MeasuredRule } from "./rule.js";

export const unplayedMeasured: MeasuredRule = { code: "measured/no-fingering", check: checkMeasured };

/** A measured note is compared with the prediction for its fingering, or for its pipe: there is one. */
function checkMeasured(measured: readonly MeasuredNote[], fingerings: readonly Fingering[]): readonly Finding[] {
  // A design that lists none itself is only begun: its key stands in.
  if (fingerings.every(({ path }) => path[0] === "key")) return [];
  const piped = fingerings.some(({ path }) => path[0] === "pipes");
  const played = new Set(fingerings.flatMap(({ target, covers }) => (covers && target ? [target.midi] : [])));
  return measured.flatMap(({ note, covers, path }): readonly Finding[] => {
    if ((covers !== undefined && !piped) || played.has(note.midi)) return [];
    const message = piped
      ? t`The design has no pipe for ${note.name}, so this measured note calibrates nothing. Give the pipe that \`note\`, or correct this one.`
      : t`The design has no fingering for ${note.name}, so this measured note calibrates nothing. Add one, draw \`holes\` beside the note, or correct it.`;
    return [{ code: "measured/no-fingering", severity: "information", message, path: [...path, "note"] }];
  });
}
