/** The print scale: its effect on the drawing and the pitch. */

import type { Steps } from "../../acoustics/steps.js";
import { Budget, within } from "../../acoustics/work.js";
import { type AtSize, sizesOf } from "../../design/scale/atSize.js";
import { sizeInWords } from "../../design/scale/inWords.js";
import { firstSentence } from "../../design/wording.js";
import { containedSteps } from "../../instrument/contained.js";
import type { RuleCode } from "../../instrument/finding.js";
import type { MadeSizes } from "../../instrument/making/madeSizes.js";
import type { Instrument } from "../../instrument/model.js";
import { t } from "../../words/translation.js";
import { ANSWER_WORK } from "../bandsInTime.js";
import { plain } from "../words.js";
import type { HoverPlace, HoverTopic } from "./place.js";

export const printScale: HoverTopic = function* (place) {
  const { printScale: scale } = place.analysis.instrument;
  if (!(scale > 0)) return [];
  return [
    t`**${plain(scale * 100, 2)} %**: every printed dimension is ${plain(scale, 4)} times the drawn one.`,
    ...(yield* atPresentSize(place)),
  ];
};

/** What it plays as it is printed, the sizes of the notes around, and how it lies in the hand. */
export function* atPresentSize({ document, analysis }: HoverPlace): Steps<string[]> {
  if (analysis.summary === undefined) return [];
  const { instrument } = analysis;
  const told = function* (): Steps<string[]> {
    const steps = sizesOf(document.resolution, analysis).steps(100 * instrument.printScale);
    const size = yield* within(new Budget(ANSWER_WORK), steps);
    if (size === undefined) return [];
    const said = sizeInWords(size);
    return [
      `${said.charAt(0).toUpperCase()}${said.slice(1)}.`,
      ...(size.made ? [`${inHand(size.made, instrument)}${onBed(size)}`] : []),
    ];
  };
  return yield* containedSteps("The size of a hover", told, []);
}

const BED: RuleCode = "print/longer-than-bed";

/** Whether it fits the printer, where the design says what that takes. */
function onBed({ made, findings }: AtSize): string {
  if (made?.hasBed !== true) return "";
  const finding = findings.find(({ code }) => code === BED);
  return finding === undefined ? ` ${t("It fits the bed.")}` : ` ${firstSentence(finding.message).replace(/\.$/, "")}.`;
}

function inHand({ widestGap, reach, widestHole, fingertip, wall }: MadeSizes, { unitMillimetres }: Instrument): string {
  const inches = unitMillimetres !== 1;
  const text = (mm: number) => `${plain(mm / unitMillimetres, inches ? 2 : 1)} ${inches ? "in" : "mm"}`;
  return [
    widestGap && t`Fingers up to ${text(widestGap.mm)} apart (reach ${text(reach)}).`,
    widestHole && t`Widest hole ${text(widestHole.mm)} (fingertip ${text(fingertip)}).`,
    wall && t`Wall ${text(wall.mm)}, ${plain(wall.lines, 1)} lines.`,
  ]
    .filter((part) => part !== undefined)
    .join(" ");
}
