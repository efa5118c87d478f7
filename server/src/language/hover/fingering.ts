/** A fingering: its note, what it is predicted to sound, its neighbours in the register, what decides it. */

import type { Steps } from "../../acoustics/steps.js";
import type { Analysis } from "../../design/predict/analysis.js";
import { bandInWords, bandPartsInWords } from "../../design/predict/bandWording.js";
import { noteBreathText } from "../../design/predict/breathWording.js";
import { governingHoleOf, isVentedOctave } from "../../design/predict/governing.js";
import { octaveStretchSteps, responseSteps } from "../../design/predict/response.js";
import { signedCents } from "../../design/wording.js";
import { escapeMarkdown } from "../../escape/markdown.js";
import { columnsOf, isDescribed } from "../../instrument/body.js";
import { containedSteps } from "../../instrument/contained.js";
import { bodyTraits, hasHoles } from "../../instrument/families/bodyTraits.js";
import { stopsFoot } from "../../instrument/fingerings.js";
import { t } from "../../words/translation.js";
import { bandsInTime } from "../bandsInTime.js";
import { bodyWords } from "../bodyWords.js";
import { breathInTime } from "../breathInTime.js";
import { type GovernedNote, numbered } from "../governing.js";
import { centsInWords, fingeringName, hertz, plain, verdict } from "../words.js";
import { table } from "./markdown.js";
import type { HoverPlace, HoverTopic } from "./place.js";

export const fingering: HoverTopic = function* (place) {
  const all = numbered(place.analysis);
  const own = all[Number(place.path[1])];
  if (own === undefined) return [];
  const { register, pattern, breath: bend } = own.fingering;
  const registers = bodyTraits(place.analysis.instrument.body).hasRegisters;
  const parts = [
    `**${fingeringName(own.fingering, own.index)}**`,
    pattern ?? "",
    stopsFoot(own.fingering, place.analysis.instrument.holes.length) ? t("foot stopped") : "",
    registers ? t`register ${register}` : "",
    bend === 0 ? "" : t`bent ${signedCents(bend)} cents by the breath; the prediction is for an even breath`,
  ];
  return [
    parts.filter((part) => part !== "").join(" · "),
    ...prediction(place, own),
    ...(yield* containedSteps("The band of a hover", () => sureness(place, own), [])),
    ...(yield* containedSteps("The response of a hover", () => answer(place, own), [])),
    ...(yield* containedSteps("The breath of a hover", () => breath(place, own, all), [])),
    ...neighbours(all, own, registers ? t("in the register") : t("beside it")),
    ...decidedBy(place, own),
  ];
};

function prediction({ analysis }: HoverPlace, own: GovernedNote): string[] {
  const { targetHz, predictedHz, cents, nearest } = own;
  if (predictedHz === undefined) {
    const target = targetHz === undefined ? "" : t`Target ${hertz(targetHz)}. `;
    return [`${target}${notPredicted(own, isDescribed(analysis.instrument.body))}`];
  }
  const rows = [
    ...(targetHz === undefined ? [] : [[t("target"), hertz(targetHz)]]),
    [t("predicted"), hertz(predictedHz)],
    ...(cents === undefined
      ? []
      : [
          [
            t("deviation"),
            t`${centsInWords(cents)}${mark(cents, analysis.tolerance)}, tolerance ${plain(analysis.tolerance, 1)}`,
          ],
        ]),
    ...(nearest !== undefined && nearest.note.midi !== own.fingering.target?.midi
      ? [[t("nearest note"), `${nearest.note.name} ${centsInWords(nearest.cents)}`]]
      : []),
  ];
  return table(["", t`at ${plain(analysis.temperature, 1)} °C`], rows);
}

/** `Good to ±23 cents, mostly the mouth (all notes together ±21, this one against the others ±9).` */
function* sureness({ document, analysis }: HoverPlace, own: GovernedNote): Steps<string[]> {
  if (own.predictedHz === undefined) return [];
  const bands = yield* bandsInTime(document, analysis);
  if (bands === undefined)
    return [t("How sure this is would take too long to calculate here; `borewright pitch --bands` shows it.")];
  const band = bands[own.index];
  return band === undefined ? [] : [t`Good to ${bandInWords(band)} (${bandPartsInWords(band)}).`];
}

/** `Response: 29 dB deep, quality factor 46; octave stretched by +16.0 cents; cut-off of the open holes from 1344 Hz.` */
function* answer({ analysis }: HoverPlace, own: GovernedNote): Steps<string[]> {
  const response = (yield* responseSteps(analysis))[own.index];
  if (response === undefined) return [];
  const stretch = yield* octaveStretchSteps(analysis, own.index);
  const lowest = Math.min(...response.cutOffs.map(({ frequency }) => frequency));
  const parts = [
    t`${response.strength.toFixed(0)} dB deep, quality factor ${response.quality.toFixed(0)}`,
    ...(stretch === undefined ? [] : [t`${nameOfStretch(analysis)} ${signedCents(stretch)} cents`]),
    ...(lowest === Number.POSITIVE_INFINITY ? [] : [t`cut-off of the open holes from ${lowest.toFixed(0)} Hz`]),
  ];
  return [t`Response: ${parts.join("; ")}.`];
}

/** `Breath, estimated: speaks from 5.1 mm (50 Pa) of water; ordinary breath 15 mm (150 Pa), 88 to 250 Pa; +3.3 cents for a tenth more breath.` */
function* breath({ analysis }: HoverPlace, own: GovernedNote, all: readonly GovernedNote[]): Steps<string[]> {
  const found = yield* breathInTime(analysis);
  const lowest = found && all[found.lowest];
  const text = lowest && noteBreathText(found, own.index, fingeringName(lowest.fingering, lowest.index));
  return text === undefined ? [] : [t`Breath, estimated: ${text}.`];
}

/** A stopped tube overblows to the twelfth. */
function nameOfStretch({ instrument }: Analysis): string {
  return columnsOf(instrument.body).some(({ foot }) => foot === "stopped")
    ? t("twelfth stretched by")
    : t("octave stretched by");
}

function mark(cents: number, tolerance: number): string {
  return Math.abs(cents) <= tolerance ? verdict(cents, tolerance) : "";
}

function notPredicted({ fingering: { covers, register }, isBeyondBudget }: GovernedNote, hasColumn: boolean): string {
  if (isBeyondBudget) return t("Not predicted: with what comes before it, it would take too long.");
  if (!hasColumn) return t("Not predicted yet: the bore, mouth or holes are not complete.");
  if (covers === undefined) return t("Not predicted: the fingering cannot be read.");
  return t`Not predicted: the air column has no register ${register} with this fingering.`;
}

/** The next lower and higher predicted notes of the same register. */
function neighbours(all: readonly GovernedNote[], own: GovernedNote, heading: string): string[] {
  if (own.predictedHz === undefined) return [];
  const register = all
    .filter((other) => other.fingering.register === own.fingering.register && other.predictedHz !== undefined)
    .sort((a, b) => (a.predictedHz ?? 0) - (b.predictedHz ?? 0));
  const place = register.findIndex(({ index }) => index === own.index);
  const rows = [register[place - 1], own, register[place + 1]].flatMap((other) => {
    if (other?.predictedHz === undefined) return [];
    const name = fingeringName(other.fingering, other.index);
    const deviation = other.cents === undefined ? "" : centsInWords(other.cents);
    return [[other === own ? `**${name}**` : name, hertz(other.predictedHz), deviation]];
  });
  return rows.length < 2 ? [] : table([heading, t("predicted"), t("deviation")], rows);
}

function decidedBy({ analysis }: HoverPlace, own: GovernedNote): string[] {
  const { covers, register } = own.fingering;
  if (covers === undefined) return [];
  const { instrument } = analysis;
  const words = bodyWords(instrument.body);
  const index = hasHoles(instrument.body) ? governingHoleOf(instrument, own.fingering) : undefined;
  const [uppermost] = instrument.holes;
  if (index === undefined && uppermost !== undefined && isVentedOctave(covers, register))
    return [
      t`${escapeMarkdown(uppermost.name)} is open to help the octave speak: ${t("the length of the bore decides")}.`,
    ];
  if (index === undefined) return [words.decidedByWhole()];
  const hole = instrument.holes[index];
  if (hole === undefined) return [];
  return [words.decidedBy(escapeMarkdown(hole.name))];
}
