/** How an estimated breath reads, alike on the command line, in hovers and in the bore view. */

import type { Instrument } from "../../instrument/model.js";
import { decimal } from "../../words/decimal.js";
import { t } from "../../words/translation.js";
import { lengthInWords } from "../wording.js";
import { type Breath, JUMP_FACTOR, type NoteBreath, PRESSURE_FACTOR, SLOPE_SHARE } from "./breath.js";
import type { VoicingEffect } from "./voicingEffect.js";

/** Pa in a millimetre of water, the conventional unit: 1 mmH₂O = 9.80665 Pa. */
const WATER = 9.80665;
/** An estimate good to a factor has two digits at most. */
const DIGITS = 2;

/** `15 mm (150 Pa)`: of water in a tube held in the corner of the mouth. */
export function breathText(pressure: number): string {
  return `${rounded(pressure / WATER)} mm (${rounded(pressure)} Pa)`;
}

function rounded(value: number): string {
  return String(Number(value.toPrecision(DIGITS)));
}

/** `90 to 250 Pa`: within a factor either way. */
function around(pressure: number, factor: number): string {
  return t`${rounded(pressure / factor)} to ${rounded(pressure * factor)} Pa`;
}

/** What holds for all its numbers: `Estimated by a model of the jet: …`. */
export function breathCaveat({ lips, assumed, isNoJet, rise }: Breath): string {
  const sizes = assumed.length === 0 ? "" : taken(assumed.join(", "), isNoJet);
  const still = lips ? t(" With still lips: a player moves them from note to note.") : "";
  const measured =
    rise === undefined ? "" : t` How the notes rise with the breath is taken from ${rise.note}, as measured.`;
  return t`An estimate by a model of the jet, in mm of water: pressures within a factor of ${PRESSURE_FACTOR} either way, cents within ${100 * SLOPE_SHARE} %; comparisons between notes are surer.${measured}${still}${sizes}`;
}

function taken(sizes: string, isNoJet: boolean): string {
  return isNoJet
    ? t` Assumed, because the design does not say, or states sizes that cannot form a jet: ${sizes}.`
    : t` Assumed, because the design does not say: ${sizes}.`;
}

/** One note in a sentence: `speaks from 5 mm (50 Pa) of water, ordinary breath 15 mm (150 Pa; 88 to 250 Pa), +2.9 cents for a tenth more breath`. */
export function noteBreathText(breath: Breath, index: number, lowestName: string): string | undefined {
  const note = breath.notes[index];
  if (note === undefined) return undefined;
  const { from, ordinary, inTuneAt, leavesAt, needsMore } = note;
  return [
    t`speaks from ${breathText(from)} of water`,
    t`ordinary breath ${breathText(ordinary)}, ${around(ordinary, PRESSURE_FACTOR)}`,
    ...slopeParts(note),
    ...(inTuneAt === undefined || index === breath.lowest
      ? []
      : [t`in tune with ${lowestName} at ${breathText(inTuneAt)}`]),
    ...(leavesAt === undefined ? [] : [t`may leave the register from ${around(leavesAt, JUMP_FACTOR)}`]),
    ...(needsMore ? [t("needs more breath than its neighbours")] : []),
  ].join("; ");
}

function slopeParts({ centsPerTenth }: NoteBreath): string[] {
  return centsPerTenth === undefined
    ? [t("silent there")]
    : [t`${slopeText(centsPerTenth)} cents for a tenth more breath`];
}

/** `+2.9`. */
export function slopeText(centsPerTenth: number): string {
  return `+${decimal(centsPerTenth.toFixed(1))}`;
}

/** `E6 and F#6 need more breath than their neighbours.`; undefined where none does. */
export function needMoreText({ notes }: Breath, nameOf: (index: number) => string): string | undefined {
  const names = notes.flatMap((note, index) => (note?.needsMore ? [nameOf(index)] : []));
  if (names.length === 0) return undefined;
  if (names.length === 1) return t`${names[0]} needs more breath than its neighbours.`;
  return t`${names.slice(0, -1).join(", ")} and ${names.at(-1)} need more breath than their neighbours.`;
}

/** `With a cut-up 0.5 mm longer G4 speaks from 7.4 mm (73 Pa), its ordinary breath is …`. */
export function voicingText(
  { size, step, before, after }: VoicingEffect,
  lowestName: string,
  instrument: Pick<Instrument, "unitMillimetres">,
): string {
  const change = lengthInWords(step, instrument);
  const slopes = [before, after].map(({ centsPerTenth }) =>
    centsPerTenth === undefined ? "–" : slopeText(centsPerTenth),
  );
  return [
    size === "cutUp"
      ? t`Cut-up ${change} longer: ${lowestName} speaks from ${breathText(after.from)}`
      : t`Windway ${change} higher: ${lowestName} speaks from ${breathText(after.from)}`,
    t`ordinary breath ${fromTo(breathText(before.ordinary), breathText(after.ordinary))}`,
    t`${slopes[0] === slopes[1] ? slopes[0] : `${slopes[0]} → ${slopes[1]}`} cents for a tenth more breath`,
    t`air ${airText(before.air)} → ${airText(after.air)} ml/s.`,
  ].join(", ");
}

function fromTo(before: string, after: string): string {
  return before === after ? t`still ${after}` : `${before} → ${after}`;
}

/** Millilitres a second. */
export function airText(air: number): string {
  return rounded(air * 1e6);
}
