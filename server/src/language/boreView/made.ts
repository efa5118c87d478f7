/** What hands and printer ask of a tube, as the view shows it: fingers' distances, and its parts against the bed. Millimetres of the print. */

import type { DesignDocument } from "../../document/designFile.js";
import { roundShape } from "../../instrument/body.js";
import { fingerSpans } from "../../instrument/hands/fingerSpans.js";
import { thumbPairs } from "../../instrument/hands/fingers.js";
import { partsOf } from "../../instrument/making/joints.js";
import { type Laying, layingOfRod } from "../../instrument/making/laying.js";
import { bedOf, mayLean, thumbReachOf } from "../../instrument/making/makerLimits.js";
import { holesAlong, MADE_SLACK, type Making, makingOf } from "../../instrument/making/making.js";
import type { BoreViewData, FingerSpan } from "../../protocol/boreView.js";

export function madeOf({ resolution }: DesignDocument): Pick<BoreViewData, "fingers" | "bed"> {
  const { draft, instrument } = resolution;
  const making = makingOf(draft, instrument.fingerings);
  if (making === undefined || instrument.body.kind === "pipes" || roundShape(instrument.body) !== undefined)
    return { fingers: [], bed: undefined };
  return {
    fingers: [...handSpans(making), ...thumbSpans(making)],
    bed: bedFor(resolution.draft, making.laidUnit),
  };
}

function handSpans(making: Making): FingerSpan[] {
  return fingerSpans(making).flatMap(({ upper, lower, apart, reach, least, isFar, isNear }) => {
    // Between the hands only too near is worth showing.
    if (reach === undefined && !isNear) return [];
    const limits = { most: reach?.mm ?? Number.MAX_VALUE, least: least?.mm ?? 0 };
    return [{ from: upper.index, to: lower.index, apart, ...limits, far: isFar, near: isNear, thumb: false }];
  });
}

function thumbSpans(making: Making): FingerSpan[] {
  const most = thumbReachOf(making.draft)?.mm;
  if (most === undefined) return [];
  const holes = holesAlong(making).filter(({ index }) => making.isFingered(index));
  return thumbPairs(holes).map((pair) => {
    const [from, to] = [...pair].sort((a, b) => a.at - b.at) as [(typeof pair)[0], (typeof pair)[1]];
    const apart = to.at - from.at;
    const far = apart > most + MADE_SLACK;
    return { from: from.holes[0].index, to: to.holes[0].index, apart, most, least: 0, far, near: false, thumb: true };
  });
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
        fits: laying !== undefined && (laying.kind !== "leaning" || mayLean(draft)),
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
