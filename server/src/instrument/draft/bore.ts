/** The bore as drawn. */
import { alongBore } from "../../acoustics/alongBore.js";
import type { Draft, DraftStation } from "./draft.js";

/** Inner diameter at `at`, or undefined while a station's number is missing. Beyond the outline the nearest station's. */
export function boreDiameterAt(bore: Draft["bore"], at: number): number | undefined {
  return alongBore(bore ?? [], at, placeOf, diameterOf);
}

const placeOf = ({ at }: DraftStation) => at;
const diameterOf = ({ diameter }: DraftStation) => diameter;
