/** Numbers in the maker's words. */
import type { BoreViewData, Handle, Reach, ResponseAnswer, Row } from "../../server/src/protocol/boreView.js";
import { decimal } from "../../server/src/words/decimal.js";
import { t } from "../../server/src/words/translation.js";

const MINUS = "−";

export function signed(cents: number): string {
  const text = Math.abs(cents).toFixed(1);
  if (Number(text) === 0) return decimal(text);
  return (cents < 0 ? MINUS : "+") + decimal(text);
}

/** A mark of the scale: without tenths where it has none. */
export function bare(cents: number): string {
  return cents === 0 ? "0" : signed(cents).replace(/[.,]0$/, "");
}

/** `10.0 cents sharp`, `in tune to the tenth of a cent`. */
export function deviation(cents: number): string {
  const text = Math.abs(cents).toFixed(1);
  if (Number(text) === 0) return t("in tune to a tenth of a cent");
  return cents > 0 ? t`${decimal(text)} cents sharp` : t`${decimal(text)} cents flat`;
}

/** A length in the file's unit: `173.3 mm`. */
export function length(millimetres: number, { unit }: Pick<BoreViewData, "unit">): string {
  return `${number(millimetres, unit)} ${unit.name}`;
}

export function number(millimetres: number, { millimetres: per, step }: BoreViewData["unit"]): string {
  return (millimetres / per).toFixed(Math.max(0, Math.round(-Math.log10(step))));
}

export function rowHeadline({ note, cents }: Row): string {
  return cents === undefined ? t`${note}: no such register` : `${note} ${deviation(cents)}`;
}

/** `±23`, or `−12 to +43` where the sides differ. */
export function reachText({ below, above }: Reach): string {
  const [down, up] = [below.toFixed(0), above.toFixed(0)];
  return down === up ? `±${up}` : t`−${down} to +${up}`;
}

/** What is said of a row below its headline. */
export function rowDetails(
  { predictedHz, targetHz, register, band }: Row,
  together: Reach | undefined,
): readonly string[] {
  const pitch =
    predictedHz === undefined ? [] : [hz(predictedHz) + (targetHz === undefined ? "" : t` for ${hz(targetHz)} Hz`)];
  const sure = [
    ...(band === undefined ? [] : [t`±${band.toFixed(0)} against the others`]),
    ...(together === undefined ? [] : [t`${reachText(together)} for all together`]),
  ];
  return [
    [...pitch, ...(register > 1 ? [t`register ${register}`] : [])].join(", "),
    sure.length === 0 ? "" : t`Good to ${sure.join(", ")}`,
  ];
}

/**
 * For screen readers and voice control: first what is written in the row, then all in words.
 * @param written in the order of the page
 */
export function rowLabel(row: Row, holeNames: readonly string[], written: readonly string[]): string {
  const { cents } = row;
  const holes = fingeringWords(row.covers, holeNames);
  const tune =
    cents === undefined
      ? t("no such register")
      : row.inTune
        ? t`${deviation(cents)}, in tolerance`
        : t`${deviation(cents)}, out of tolerance`;
  return [written.join(" "), t`Register ${row.register}`, tune, ...holes].join(". ");
}

export function handleLabel({ kind, name, hole }: Handle): string {
  switch (kind) {
    case "foot":
      return t("Foot: where the bore ends");
    case "station":
      return t`Bore, ${name}: place`;
    case "stationWidth":
      return t`Bore, ${name}: diameter`;
    case "stopper":
      return `${name.charAt(0).toUpperCase()}${name.slice(1)}: ${hole < 0 ? t("how far upstream the air ends") : t("length to the stopper")}`;
    default:
      return `${name}: ${kind === "place" ? t("place") : t("diameter")}`;
  }
}

/** How a note answers, and what its numbers mean. @param stopped at the foot: the next register is a twelfth up, not an octave */
export function responseWords({ strength, quality, cutOffHz, stretch }: ResponseAnswer, stopped: boolean): string {
  return [
    ...(strength === undefined ? [] : [t`dip ${strength.toFixed(0)} dB deep (deeper speaks more easily)`]),
    ...(quality === undefined ? [] : [t`quality factor ${quality.toFixed(0)} (higher holds its pitch more firmly)`]),
    ...(stretch === undefined
      ? []
      : [
          stopped
            ? t`second register ${signed(stretch)} cents from the twelfth`
            : t`second register ${signed(stretch)} cents from the octave`,
        ]),
    ...(cutOffHz === undefined ? [] : [t`open holes let through what is above ${cutOffHz.toFixed(0)} Hz`]),
  ].join(" · ");
}

/** A fingering in the signs of the file: `●●◐○`. */
export function fingeringSigns(covers: readonly number[]): string {
  return covers.map((cover) => (cover === 1 ? "●" : cover === 0 ? "○" : "◐")).join("");
}

/** The same for those who listen: `L1 closed, L2 open`. */
export function fingeringWords(covers: readonly number[], holeNames: readonly string[]): readonly string[] {
  const state = (cover: number) => (cover === 1 ? t("closed") : cover === 0 ? t("open") : t("half closed"));
  return covers.map((cover, i) => `${holeNames[i] ?? t`hole ${i + 1}`} ${state(cover)}`);
}

function hz(frequency: number): string {
  return decimal(frequency.toFixed(1));
}
