/** The bore as drawn. */
import type { Draft } from "./draft.js";

/** Inner diameter at `at`, or undefined while a station's number is missing. Beyond the outline the nearest station's. */
export function boreDiameterAt(bore: Draft["bore"], at: number): number | undefined {
  let before: { at: number; diameter: number } | undefined;
  for (const station of bore ?? []) {
    if (station.at === undefined || station.diameter === undefined) return undefined;
    if (station.at > at) {
      if (before === undefined) return station.diameter;
      const share = (at - before.at) / (station.at - before.at);
      return before.diameter + share * (station.diameter - before.diameter);
    }
    before = { at: station.at, diameter: station.diameter };
  }
  return before?.diameter;
}
