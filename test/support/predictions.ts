/** What a design sounds, by text. */
import { analyse } from "../../server/src/design/predict/analyse.js";
import { DEFAULT_SETTINGS } from "../../server/src/design/settings.js";
import { documentOf, fileOf } from "./designs.js";

/** Hz of each fingering of the first instrument. */
export function soundings(text: string): readonly number[] {
  const { instrument } = documentOf(fileOf(text)).resolution;
  return analyse(instrument, DEFAULT_SETTINGS).fingerings.map(({ predictedHz }) => predictedHz ?? Number.NaN);
}
