import { analyse } from "../../server/src/design/predict/analyse.js";
import { documentOf, fileOf } from "./designs.js";

export interface Played {
  readonly note: string;
  readonly hz: number;
}

/** What a design plays, as its maker would note it down, to this many digits of a hertz. */
export function played(text: string, digits = 4): readonly Played[] {
  return analyse(documentOf(fileOf(text)).resolution.instrument).fingerings.map(({ fingering, predictedHz }) => ({
    note: fingering.target?.name ?? "",
    hz: Number(predictedHz?.toFixed(digits)),
  }));
}
