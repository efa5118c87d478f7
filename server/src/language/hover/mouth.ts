/** The mouth: the length of tube it stands for, and what its model cannot know. */

import type { Mouth } from "../../acoustics/column.js";
import { soundingSteps } from "../../acoustics/resonance.js";
import type { Steps } from "../../acoustics/steps.js";
import { Budget, within } from "../../acoustics/work.js";
import { secantSteps } from "../../design/fix/solve.js";
import { breathCaveat, voicingText } from "../../design/predict/breathWording.js";
import { mouthOf } from "../../design/predict/mouthKnob.js";
import { voicingEffectSteps } from "../../design/predict/voicingEffect.js";
import { lengthInWords } from "../../design/wording.js";
import { sharedColumn } from "../../instrument/body.js";
import { containedSteps } from "../../instrument/contained.js";
import type { Path } from "../../instrument/finding.js";
import { centsAbove } from "../../music/cents.js";
import { t } from "../../words/translation.js";
import { ANSWER_WORK } from "../bandsInTime.js";
import { bodyWords } from "../bodyWords.js";
import { breathInTime } from "../breathInTime.js";
import { numbered } from "../governing.js";
import { fingeringName } from "../words.js";
import { mouthCaveat } from "./mouthCaveat.js";
import type { HoverPlace, HoverTopic } from "./place.js";

export const mouth: HoverTopic = function* ({ analysis, path }) {
  const blown = mouthOf(analysis.instrument.body);
  if (blown === undefined) return [];
  const { kind } = blown;
  const length = kind === "ideal" || kind === "correction" ? [] : yield* actsLike(analysis);
  const { embouchure } = bodyWords(analysis.instrument.body);
  return [
    t`**Mouth**: ${kind === "embouchure" ? embouchure() : isApart(blown) ? t(APART) : t(MOUTHS[kind])}`,
    ...length,
    ...(yield* containedSteps("The voicing of a hover", () => voicing(analysis, path), [])),
    ...mouthCaveat(analysis),
  ];
};

/** The effect of the size under the cursor on the breath; both sizes where the windway as a whole is meant. */
function* voicing(analysis: HoverPlace["analysis"], [, part, name]: Path): Steps<string[]> {
  const meant = part === "windway" ? (name ?? "both") : name;
  if (part !== "window" && part !== "windway") return [];
  const effects = yield* within(new Budget(ANSWER_WORK), voicingEffectSteps(analysis));
  const told = (effects ?? []).filter(({ size }) => meant === "both" || meant === size);
  const breath = yield* breathInTime(analysis);
  const lowest = breath && analysis.fingerings[breath.lowest];
  if (told.length === 0 || breath === undefined || lowest === undefined) return [];
  const texts = told.map((effect) =>
    voicingText(effect, fingeringName(lowest.fingering, breath.lowest), analysis.instrument),
  );
  return [[...texts, breathCaveat(breath)].join(" ")];
}

const MOUTHS = {
  ideal: "an ideal open end, as textbooks have it; no real mouth is like that.",
  correction: "replaced by a measured correction.",
  window: "a window at the end of a windway.",
  notch: "a notch in the tube's end, which lip and chin close but for a slot before its edge.",
  rim: "the open end of the tube, in part under the lip.",
} as const;

/** A plug that is not flush with the window. */
const isApart = (mouth: Mouth) => mouth.kind === "window" && mouth.stopper !== undefined;
const APART = "a window, and a closed piece of bore between it and the plug.";

/** Nearer than this the equivalent length is right to a hundredth of a millimetre. Cents. */
const CLOSE_ENOUGH = 0.02;
/** m; the correction of a flute's mouth commonly lies between these (common practice, no source). */
const GUESSES = [0.02, 0.04] as const;
const LONGEST = 0.5;

/** The correction that gives the lowest note the pitch the modelled mouth gives it: comparable from flute to flute. */
function* actsLike(analysis: HoverPlace["analysis"]): Steps<string[]> {
  const column = sharedColumn(analysis.instrument.body);
  const lowest = numbered(analysis)
    .filter(({ predictedHz, fingering }) => predictedHz !== undefined && fingering.register === 1)
    .sort((a, b) => (a.predictedHz ?? 0) - (b.predictedHz ?? 0))[0];
  const { covers, register } = lowest?.fingering ?? {};
  const { predictedHz } = lowest ?? {};
  if (column === undefined || lowest === undefined || covers === undefined || register === undefined) return [];
  if (predictedHz === undefined) return [];
  const length = yield* secantSteps(
    function* (trial) {
      const changed = { ...column, mouth: { kind: "correction" as const, length: trial } };
      const [sounding] = yield* soundingSteps(changed, analysis.air, [{ covers, register }]);
      return sounding && centsAbove(sounding.frequency, predictedHz);
    },
    ...GUESSES,
    { least: 0, greatest: LONGEST, tolerance: CLOSE_ENOUGH },
  );
  if (length === undefined) return [];
  const name = fingeringName(lowest.fingering, lowest.index);
  return [t`At ${name} it acts like ${lengthInWords(length, analysis.instrument, 1)} more tube.`];
}
