/** A comparison in a line or two. */
import { signedCents } from "../design/wording.js";
import { intervalName } from "../music/interval.js";
import { t, told } from "../words/translation.js";
import type { Comparison } from "./compare.js";
import { isChanged } from "./measures.js";
import { type NoteChange, type NoteState, noteName } from "./notes.js";

/** Notes named in a verdict; the rest is in the table. */
const MOST_NAMED = 3;

/** `3 notes better, 1 worse: A4 −3 → +12. A4 left its tolerance of ±10 cents.` */
export function verdict(comparison: Comparison): string {
  return [keyChange(comparison), notesInWords(comparison), toleranceInWords(comparison)].filter(Boolean).join(" ");
}

function keyChange({ rekeyed }: Comparison): string {
  if (rekeyed === undefined) return "";
  const { from, to, semitones } = rekeyed;
  const interval = article(intervalName(semitones));
  return semitones > 0
    ? t`From ${from.name} to ${to.name}, ${interval} higher: deviations are compared, each from its own key's notes.`
    : t`From ${from.name} to ${to.name}, ${interval} lower: deviations are compared, each from its own key's notes.`;
}

function article(words: string): string {
  if (/^\d/.test(words)) return words;
  return /^[aeiou]/.test(words) && !words.startsWith("unison") ? t`an ${words}` : t`a ${words}`;
}

const SAID: readonly (readonly [NoteState, string])[] = [
  ["better", told("better")],
  ["worse", told("worse")],
  ["lost", told("lost")],
  ["found", told("found")],
  ["added", told("added")],
  ["removed", told("removed")],
];

function notesInWords(comparison: Comparison): string {
  const { notes } = comparison;
  if (isLost(comparison)) return t("The new version cannot be predicted.");
  const counts = SAID.flatMap(([state, word]) => {
    const count = notes.filter((note) => note.state === state).length;
    return count === 0 ? [] : [{ count, word }];
  });
  if (counts.length === 0) return nothingInWords(comparison);
  const parts = counts.map(({ count, word }, i) =>
    i > 0 ? `${count} ${t(word)}` : count === 1 ? t`1 note ${t(word)}` : t`${count} notes ${t(word)}`,
  );
  const worst = notes
    .filter(({ state }) => state === "worse" || state === "lost")
    .toSorted((a, b) => farther(b) - farther(a));
  const { tolerance } = comparison.next.analysis;
  const named = worst.slice(0, MOST_NAMED).map((note) => `${noteName(note)} ${step(note, tolerance)}`);
  const more = worst.length > MOST_NAMED ? t` and ${worst.length - MOST_NAMED} more` : "";
  return `${parts.join(", ")}${named.length === 0 ? "" : `: ${named.join(", ")}${more}`}.`;
}

/** The old one was predicted, the new one is not at all. */
function isLost({ old, next }: Comparison): boolean {
  return (
    old.analysis.summary !== undefined && next.analysis.summary === undefined && next.analysis.fingerings.length > 0
  );
}

function nothingInWords({ notes, dimensions, findings, structure, measures }: Comparison): string {
  const quiet =
    dimensions.length === 0 &&
    structure.length === 0 &&
    findings.came.length === 0 &&
    findings.went.length === 0 &&
    !measures.some(isChanged);
  if (notes.every(({ state }) => state === "unknown")) return t("No note can be predicted in either version.");
  const still = notes.every(({ change }) => change === undefined || Math.abs(change) < SHOWN);
  if (still) return quiet ? NOTHING : t("No note changes.");
  return t("No note is better or worse by half a cent.");
}

/** The verdict on two designs that are one. */
export const NOTHING = "Nothing changes.";

/** What a tenth of a cent shows. */
const SHOWN = 0.05;

function toleranceInWords(comparison: Comparison): string {
  if (isLost(comparison)) return "";
  const { notes, old, next } = comparison;
  const left = notes.filter(({ leftTolerance }) => leftTolerance).map(noteName);
  const came = notes.filter(({ cameIntoTolerance }) => cameIntoTolerance).map(noteName);
  const [was, is] = [old.analysis.tolerance, next.analysis.tolerance];
  return [
    ...(was === is ? [] : [t`The tolerance is ±${is} cents, was ±${was}.`]),
    ...(left.length === 0 ? [] : [t`${listed(left)} left the tolerance of ±${is} cents.`]),
    ...(came.length === 0 ? [] : [t`${listed(came)} came within the tolerance of ±${is} cents.`]),
  ].join(" ");
}

function listed(names: readonly string[]): string {
  const shown = names.slice(0, MOST_NAMED);
  if (names.length > MOST_NAMED) return t`${shown.join(", ")} and ${names.length - MOST_NAMED} more`;
  return shown.length === 1 ? (shown[0] ?? "") : t`${shown.slice(0, -1).join(", ")} and ${shown.at(-1)}`;
}

/** `−3 → +12`; with tenths where whole cents would hide the change, or that it is beyond the tolerance. */
export function step({ old, next }: Pick<NoteChange, "old" | "next">, tolerance: number): string {
  const [was, is] = [old?.cents, next?.cents];
  const hidden = is !== undefined && Math.abs(is) > tolerance && Math.abs(Math.round(is)) <= tolerance;
  const near = was !== undefined && is !== undefined && Math.abs(Math.round(was) - Math.round(is)) < 2;
  const whole = (cents: number) => signedCents(Math.round(cents)).replace(/[.,]0$/, "");
  const shown = (cents: number) => (hidden || near ? signedCents(cents) : whole(cents));
  return `${was === undefined ? "–" : shown(was)} → ${is === undefined ? "–" : shown(is)}`;
}

function farther({ old, next }: NoteChange): number {
  if (next?.cents === undefined) return Number.POSITIVE_INFINITY;
  return Math.abs(next.cents) - Math.abs(old?.cents ?? 0);
}
