/** Requests for a new instrument: what kinds there are, and one of them brought into tune. */
import type { CancellationToken } from "vscode-languageserver";
import type { Wanted } from "../design/create/firstText.js";
import { usualName } from "../design/create/newDesign.js";
import { RECIPE_IDS, RECIPES, type RecipeId } from "../design/create/recipes.js";
import { applyEdits } from "../document/edits.js";
import { label } from "../escape/label.js";
import { parseNote } from "../music/note.js";
import {
  INSTRUMENT_KINDS,
  type InstrumentKind,
  isTubeAtHand,
  NEW_INSTRUMENT,
  type NewInstrumentAnswer,
  type NewInstrumentQuestion,
  TUBE_AT_HAND,
} from "../protocol/newInstrument.js";
import { t } from "../words/translation.js";
import type { Session } from "./session.js";
import { INITIAL_SETTINGS } from "./settings.js";

export function registerNewInstrument(session: Session): void {
  const { connection } = session;
  connection.onRequest(INSTRUMENT_KINDS, (): InstrumentKind[] =>
    RECIPE_IDS.map((id) => ({ id, title: t(RECIPES[id].title) })),
  );
  connection.onRequest(
    NEW_INSTRUMENT,
    async (params: unknown, token: CancellationToken): Promise<NewInstrumentAnswer> => {
      const request = readRequest(params);
      if (typeof request === "string") return { message: request };
      const job = { text: "", syntax: "yaml", documentIndex: 0, settings: INITIAL_SETTINGS.analysis } as const;
      const work = { do: "new", ...request } as const;
      const { edits, message } = await session.longWork.run({ ...job, work }, () => token.isCancellationRequested);
      return { text: applyEdits("", edits), name: request.wanted.name, message: label(message) };
    },
  );
}

/** What is asked for, or what is wrong with it. */
function readRequest(params: unknown): { readonly kind: RecipeId; readonly wanted: Wanted } | string {
  const { kind, key, tube, hand } = (params ?? {}) as Partial<NewInstrumentQuestion>;
  const known = RECIPE_IDS.find((id) => id === kind);
  const note = typeof key === "string" ? parseNote(key) : undefined;
  if (known === undefined) return t`There is no kind of instrument called ${String(kind)}.`;
  if (note === undefined) return t`${String(key)} is not a note: write it like G4, Bb3 or F#5.`;
  if (tube !== undefined && !isTubeAtHand(tube)) {
    const [bore, wall] = [TUBE_AT_HAND.bore, TUBE_AT_HAND.wall].map((range) => range.join(" to "));
    return t`A tube at hand has an inner diameter of ${bore} mm and a wall of ${wall} mm.`;
  }
  const name = usualName(known, note);
  return { kind: known, wanted: { key: note, tube, hand: hand === "child" ? "child" : "adult", name } };
}
