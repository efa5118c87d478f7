/** The name, the family, the key: the instrument as a whole. */

import type { Steps } from "../../acoustics/steps.js";
import { bandSummary } from "../../design/predict/bandWording.js";
import { breathCaveat, breathText, needMoreText } from "../../design/predict/breathWording.js";
import { evennessOf, responseSteps } from "../../design/predict/response.js";
import { signedCents } from "../../design/wording.js";
import { escapeMarkdown } from "../../escape/markdown.js";
import { containedSteps } from "../../instrument/contained.js";
import { bodyTraits } from "../../instrument/families/bodyTraits.js";
import { frequencyOf, ISO_16_HZ } from "../../music/tuning.js";
import { t } from "../../words/translation.js";
import { bandsInTime } from "../bandsInTime.js";
import { breathInTime } from "../breathInTime.js";
import { summaryOf } from "../codeLens.js";
import { numbered } from "../governing.js";
import { centsInWords, fingeringName, hertz, plain } from "../words.js";
import { table } from "./markdown.js";
import { mouthCaveat } from "./mouthCaveat.js";
import type { HoverPlace, HoverTopic } from "./place.js";
import { atPresentSize } from "./printScale.js";

export const wholeInstrument: HoverTopic = function* (place) {
  const { analysis } = place;
  return [
    summaryOf(analysis),
    ...onTheWhole(analysis),
    yield* containedSteps("The bands of a hover", () => sureness(place), ""),
    ...(yield* containedSteps("The evenness of a hover", () => evenness(analysis), [])),
    ...(yield* containedSteps("The breath of a hover", () => breath(analysis), [])),
    ...(analysis.summary === undefined ? [] : mouthCaveat(analysis)),
  ];
};

function* sureness({ document, analysis }: HoverPlace): Steps<string> {
  const bands = yield* bandsInTime(document, analysis);
  return (bands && bandSummary(bands)) ?? "";
}

/** How alike the notes answer, register by register. */
function* evenness(analysis: HoverPlace["analysis"]): Steps<string[]> {
  yield* responseSteps(analysis);
  const all = evennessOf(analysis);
  if (!bodyTraits(analysis.instrument.body).hasRegisters)
    return all.map(
      ({ meanStrength, strengthSpread }) =>
        t`Strength of its notes: ${meanStrength.toFixed(0)} dB, ±${strengthSpread.toFixed(1)}.`,
    );
  const rows = all.map((own) => [
    String(own.register),
    t`${own.meanStrength.toFixed(0)} dB, ±${own.strengthSpread.toFixed(1)}`,
    own.meanCutOff === undefined || own.cutOffSpread === undefined
      ? ""
      : t`${own.meanCutOff.toFixed(0)} Hz, ±${(100 * own.cutOffSpread).toFixed(0)} %`,
  ]);
  return table([t("register"), t("strength of its notes"), t("cut-off of the open holes")], rows);
}

/** From the lowest note's breath to the highest's, and which notes need more. */
function* breath(analysis: HoverPlace["analysis"]): Steps<string[]> {
  const found = yield* breathInTime(analysis);
  const notes = found?.notes.flatMap((note) => note ?? []) ?? [];
  if (found === undefined || notes.length === 0) return [];
  const ordinary = notes.map((note) => note.ordinary);
  const ends = [Math.min(...ordinary), Math.max(...ordinary)].map(breathText);
  const needing = needMoreText(found, (index) => {
    const own = analysis.fingerings[index];
    return own === undefined ? "?" : fingeringName(own.fingering, index);
  });
  return [
    [
      t`Ordinary breath from ${ends[0]} of water to ${ends[1]}.`,
      ...(needing === undefined ? [] : [needing]),
      breathCaveat(found),
    ].join(" "),
  ];
}

export const key: HoverTopic = function* (place) {
  const { analysis } = place;
  const { instrument } = analysis;
  if (instrument.key === undefined) return [];
  const target = frequencyOf(instrument.key, instrument.tuning);
  const own = numbered(analysis).find(
    ({ fingering, predictedHz }) => predictedHz !== undefined && fingering.target?.midi === instrument.key?.midi,
  );
  const rows = [
    [t("target"), hertz(target)],
    ...(own?.predictedHz === undefined
      ? []
      : [
          [
            t("predicted"),
            t`${hertz(own.predictedHz)} with ${own.fingering.pattern ?? fingeringName(own.fingering, own.index)}`,
          ],
        ]),
    ...(own?.cents === undefined ? [] : [[t("deviation"), centsInWords(own.cents)]]),
  ];
  return [
    ...table([`**${instrument.key.name}**`, `A4 = ${plain(instrument.tuning.pitchStandard, 2)} Hz`], rows),
    ...onTheWhole(analysis),
    ...(yield* atPresentSize(place)),
  ];
};

/** What one factor on every dimension would correct, and what it would not. */
function onTheWhole(analysis: HoverPlace["analysis"]): string[] {
  const { summary } = analysis;
  if (summary === undefined || summary.count < 2) return [];
  const spread = Math.sqrt(Math.max(0, summary.rmsCents ** 2 - summary.meanCents ** 2));
  return [
    t`On the whole ${centsInWords(summary.meanCents)}; the notes scatter about that by ${plain(spread, 1)} cents (root mean square).`,
  ];
}

/** How the temperament places each note of the fingerings, relative to equal temperament. */
export const temperament: HoverTopic = ({ analysis }) => {
  const { instrument } = analysis;
  const { tuning } = instrument;
  const equal = { ...tuning, cents: EQUAL_CENTS };
  const seen = new Map<string, number>();
  for (const { fingering } of analysis.fingerings) {
    const { target } = fingering;
    if (target === undefined || seen.has(target.pitchClass)) continue;
    seen.set(target.pitchClass, 1200 * Math.log2(frequencyOf(target, tuning) / frequencyOf(target, equal)));
  }
  const name =
    instrument.temperament === "custom" ? t("your own twelve values") : escapeMarkdown(instrument.temperament);
  const rows = [...seen].map(([note, cents]) => [note, signedCents(cents)]);
  if (rows.every(([, cents]) => cents === "0.0")) return [t`**${name}**: every note where equal temperament has it.`];
  return [
    t`**${name}**: where it puts this design's notes, with A4 at the pitch standard.`,
    ...table([t("note"), t("cents from equal")], rows),
  ];
};

const EQUAL_CENTS: readonly number[] = Array.from({ length: 12 }, (_, i) => 100 * i);

/** The pitch standard moves every target alike. */
export const pitchStandard: HoverTopic = ({ analysis }) => {
  const { pitchStandard: hz } = analysis.instrument.tuning;
  const cents = 1200 * Math.log2(hz / ISO_16_HZ);
  const against = cents === 0 ? t("as ISO 16 has it") : t`${centsInWords(cents)} against ISO 16's ${ISO_16_HZ} Hz`;
  return [
    t`**A4 = ${plain(hz, 2)} Hz**, ${against}. It moves every target alike and no prediction.`,
    ...onTheWhole(analysis),
  ];
};
