/** The order of work in words, alike on the command line and in the editor. */
import type { Instrument } from "../../instrument/model.js";
import { t } from "../../words/translation.js";
import { centsInWords, deviationInWords, lengthInWords } from "../wording.js";
import type { BenchPlan, BenchStep, ReadNote, WhyLeft } from "./plan.js";

/** `open R3 by 0.4 mm, to 6.9 mm; then A4 should read −13, A5 −11 (not beyond 7.2 mm)`. */
export function stepInWords(step: BenchStep, instrument: Instrument): string {
  const size = (metres: number) => lengthInWords(metres, instrument);
  const by = size(Math.abs(step.to - step.from));
  const notBeyond = Math.abs(step.stop - step.to) < HARDLY ? "" : t` (not beyond ${size(step.stop)})`;
  return t`${workInWords(step, by, size(step.to))}; then ${readingsInWords(step.notes)}${notBeyond}`;
}

/** m: smaller differences are not shown. */
const HARDLY = 5e-5;

function workInWords({ kind, name }: BenchStep, by: string, to: string): string {
  switch (kind) {
    case "open":
      return t`open ${name} by ${by}, to ${to}`;
    case "undercut":
      return t`undercut ${name} by ${by}, so that at the bore it is ${to} wider than outside`;
    case "shorten":
      return t`shorten ${name} by ${by}, to ${to}`;
    case "cut-up":
      return t`cut up ${name} at its blade by ${by}, to ${to}`;
    case "widen":
      return t`widen ${name} by ${by}, to ${to}`;
    case "lengthen":
      return t`open ${name} along the tube by ${by}, to ${to}, by the same amount at both ends`;
    case "bush":
      return t`bush ${name}: glue in a sleeve, and open it to ${to}`;
  }
}

function readingsInWords(notes: readonly ReadNote[]): string {
  const [first, ...others] = notes.map(({ name, reading }) => [name, whole(reading)] as const);
  if (first === undefined) return t("measure again");
  return t`${first[0]} should read ${first[1]}${others.map(([name, reading]) => `, ${name} ${reading}`).join("")}`;
}

/** What a needle shows: whole cents, with a true minus. */
export function whole(cents: number): string {
  const rounded = Math.round(cents);
  if (rounded === 0) return "0";
  return rounded < 0 ? `−${-rounded}` : `+${rounded}`;
}

/** `Read at 19 °C with the tuner's A4 at 440 Hz; in tune at 22 °C.` */
export function airInWords({ workshop, temperature, pitchStandard }: BenchPlan): string {
  return workshop === temperature
    ? t`Readings at ${workshop} °C, where it is to be in tune; tuner's A4 at ${pitchStandard} Hz.`
    : t`Readings at ${workshop} °C, it is to be in tune at ${temperature} °C; tuner's A4 at ${pitchStandard} Hz.`;
}

/** Notes that are left, and why. */
export function leftInWords({ left }: BenchPlan): readonly string[] {
  return left.map(({ notes, off, unsure, why }) => {
    const [first, ...others] = notes.map(({ name, reading }) => t`${name} reads ${whole(reading)}`);
    if (why === "apart") return `${[first, ...others].join(", ")}; ${apartInWords(off)}.`;
    const will =
      notes.length > 1
        ? t`with the rest done they lie ${deviationInWords(off)}`
        : t`with the rest done it lies ${deviationInWords(off)}`;
    return `${[first, ...others].join(", ")}; ${will}: ${reason(why, off, unsure)}.`;
  });
}

function apartInWords(cents: number): string {
  return t`their registers lie ${centsInWords(cents)} apart, and one size moves both: another print, with the hole elsewhere, brings them nearer`;
}

function reason(why: Exclude<WhyLeft, "apart">, off: number, unsure: number): string {
  if (why === "no-tool")
    return off > 0
      ? t("no work on the bench lowers that: print the part again, or state the size it has")
      : t("no hole or length that can be worked on at the bench decides that");
  return why === "limit"
    ? t("fingertip, wall, bore or the design's limits leave nothing more to cut; calibrate and print again")
    : t`closer than the measurement is certain, ±${unsure.toFixed(0)} cents: play it more often and state \`uncertainty\``;
}

/** Rules for every order of work. */
export function rulesOfWork(plan: BenchPlan): readonly string[] {
  return [
    ...(plan.isMeasured
      ? []
      : [
          t(
            "Nothing is measured yet: this is what the prediction says. Play it first, and list the notes under `measured`.",
          ),
        ]),
    ...(plan.steps.length === 0
      ? []
      : [
          t(
            "Go from the first to the last, measure after each, and stop if a note reads higher than given here: then plan again from what you read.",
          ),
          t("What is cut off cannot be put back: cut too little rather than too much. Then measure every note again."),
        ]),
  ];
}
