/** What hands and printer ask of a tube, as the view shows it: fingers' distances, and its parts against the bed. Millimetres of the print. */

import type { DesignDocument } from "../../document/designFile.js";
import { roundShape } from "../../instrument/body.js";
import { fingerPairs, thumbPairs } from "../../instrument/fingers.js";
import { partsOf } from "../../instrument/joints.js";
import { type Laying, layingOfRod } from "../../instrument/laying.js";
import { bedOf, reachOf, thumbReachOf } from "../../instrument/makerLimits.js";
import { holesAlong, MADE_SLACK, makingOf } from "../../instrument/making.js";
import type { BoreViewData } from "../../protocol/boreView.js";

export function madeOf({ resolution }: DesignDocument): Pick<BoreViewData, "fingers" | "bed"> {
  const { draft, instrument } = resolution;
  const making = makingOf(draft, instrument.fingerings);
  if (making === undefined || instrument.body.kind === "pipes" || roundShape(instrument.body) !== undefined)
    return { fingers: [], bed: undefined };
  const holes = holesAlong(making).filter(({ index }) => making.isFingered(index));
  const [reach, thumb] = [reachOf(draft)?.mm, thumbReachOf(draft)?.mm];
  const span = (thumbs: boolean, most: number | undefined) => (pair: readonly (typeof holes)[number][]) => {
    const [from, to] = [...pair].sort((a, b) => a.at - b.at);
    if (from === undefined || to === undefined || most === undefined) return [];
    const apart = to.at - from.at;
    return [{ from: from.index, to: to.index, apart, most, far: apart > most + MADE_SLACK, thumb: thumbs }];
  };
  return {
    fingers: [...fingerPairs(holes).flatMap(span(false, reach)), ...thumbPairs(holes).flatMap(span(true, thumb))],
    bed: bedFor(resolution.draft, making.laidUnit),
  };
}

function bedFor(draft: DesignDocument["resolution"]["draft"], laidUnit: number): BoreViewData["bed"] {
  const bed = bedOf(draft);
  const parts = partsOf(draft);
  if (bed === undefined || parts.length === 0) return undefined;
  return {
    sides: bed,
    parts: parts.map(({ from, to, width }, i) => {
      const length = (to - from) * laidUnit;
      const laying = layingOfRod(length, width * laidUnit, bed);
      return {
        name: parts.length === 1 ? "The tube" : `Part ${i + 1}`,
        length,
        fits: laying !== undefined,
        words: inWords(laying),
      };
    }),
  };
}

function inWords(laying: Laying | undefined): string {
  switch (laying?.kind) {
    case "straight":
      return "fits straight";
    case "turned":
      return `fits flat, turned ${laying.degrees}°`;
    case "leaning":
      return `fits only leaning ${laying.degrees}°, on supports`;
    default:
      return "does not fit";
  }
}
