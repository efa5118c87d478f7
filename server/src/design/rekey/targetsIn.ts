/** What the fingerings of a design should sound in another key. */
import type { Resolution } from "../../instrument/model.js";
import type { Note } from "../../music/note.js";
import { targetHzOf } from "../predict/target.js";
import { notesAsIf } from "./asIf.js";

/** Hz by fingering; undefined where it has no note, or none in that key. @param key its own where left out */
export function targetsIn(resolution: Resolution, key: Note | undefined): readonly (number | undefined)[] {
  const { tuning, fingering } = notesAsIf(resolution, key);
  const meant = { tuning: tuning.tuning, drawnFlat: resolution.instrument.drawnFlat };
  return fingering.fingerings.map((each) => targetHzOf(each, meant));
}
