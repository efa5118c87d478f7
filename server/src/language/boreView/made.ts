/** What hands and printer ask, as the view shows it: distances of a tube's fingers, and parts against the bed. Millimetres of the print. */
import type { DesignDocument } from "../../document/designFile.js";
import { roundShape } from "../../instrument/body.js";
import { hasHoles } from "../../instrument/families/bodyTraits.js";
import { bodyKindOf } from "../../instrument/families/index.js";
import { fingerSpans } from "../../instrument/hands/fingerSpans.js";
import { thumbPairs } from "../../instrument/hands/fingers.js";
import { pipesBlock, vesselBlock } from "../../instrument/making/blocks.js";
import { partsOf } from "../../instrument/making/joints.js";
import { type Laying, layingOfBlock, layingOfRod, type Size } from "../../instrument/making/laying.js";
import { bedOf, mayLean, thumbReachOf } from "../../instrument/making/makerLimits.js";
import { holesAlong, MADE_SLACK, type Making, makingOf } from "../../instrument/making/making.js";
import type { BoreViewData, FingerSpan } from "../../protocol/boreView.js";
import { t } from "../../words/translation.js";

export function madeOf({ resolution }: DesignDocument): Pick<BoreViewData, "fingers" | "bed"> {
  const { draft, instrument } = resolution;
  const making = makingOf(draft, instrument.fingerings);
  if (making === undefined) return { fingers: [], bed: undefined };
  const isTube = hasHoles(instrument.body) && roundShape(instrument.body) === undefined;
  return { fingers: isTube ? [...handSpans(making), ...thumbSpans(making)] : [], bed: bedFor(making) };
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

function bedFor(making: Making): BoreViewData["bed"] {
  const sides = bedOf(making.draft);
  if (sides === undefined) return undefined;
  const leans = mayLean(making.draft);
  const parts = partsToLay(making).map(({ name, length, laying: lay }) => {
    const laying = lay(sides);
    const fits = laying !== undefined && (laying.kind !== "leaning" || leans);
    return { name, length, fits, words: inWords(laying) };
  });
  return parts.length === 0 ? undefined : { sides, parts };
}

interface PartToLay {
  readonly name: string;
  readonly length: number;
  readonly laying: (bed: Size) => Laying | undefined;
}

function partsToLay(making: Making): readonly PartToLay[] {
  const { draft, laidUnit } = making;
  const block = (name: string, size: Size | undefined): readonly PartToLay[] =>
    size === undefined ? [] : [{ name, length: Math.max(...size), laying: (bed) => layingOfBlock(size, bed) }];
  const kind = bodyKindOf(draft);
  if (kind === "pipes") return block(t("The row of pipes"), pipesBlock(making));
  if (kind === "vessel") return block(t("The vessel"), vesselBlock(making));
  const parts = partsOf(draft);
  return parts.map(({ from, to, width }, i) => {
    const length = (to - from) * laidUnit;
    const name = parts.length === 1 ? t("The tube") : t`Part ${i + 1}`;
    return { name, length, laying: (bed) => layingOfRod(length, width * laidUnit, bed) };
  });
}

function inWords(laying: Laying | undefined): string {
  switch (laying?.kind) {
    case "straight":
      return t("fits straight");
    case "turned":
      return t`fits flat, turned ${laying.degrees}°`;
    case "leaning":
      return t`fits only leaning ${laying.degrees}°, on supports`;
    default:
      return t("does not fit");
  }
}
