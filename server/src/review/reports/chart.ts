/** Deviations before and after as lines of text: `o` old, `●` new, `│` in tune, `·` the tolerance's ends. */

import { t } from "../../words/translation.js";
import type { Comparison } from "../compare.js";
import { noteName } from "../notes.js";

/** Characters on each side of the middle. */
const HALF = 20;
/** Cents per character: the least that shows every note, within what is worth showing. */
const STEPS = [0.5, 1, 2, 2.5, 5, 10] as const;

export function chart({ notes, next }: Comparison): readonly string[] {
  const cents = notes.flatMap(({ old, next: now }) => [old?.cents ?? 0, now?.cents ?? 0]);
  const farthest = Math.max(next.analysis.tolerance, ...cents.map(Math.abs));
  const step = STEPS.find((each) => farthest <= each * HALF) ?? STEPS[STEPS.length - 1] ?? 1;
  const names = notes.map(noteName);
  const width = Math.max(4, ...names.map((name) => name.length));
  const end = String(step * HALF);
  const scale = `${" ".repeat(width + 1)}${`−${end}`.padEnd(HALF)}0${`+${end}`.padStart(HALF)}${t(" cents")}`;
  const rows = notes.map((note, i) => {
    const line = Array.from({ length: 2 * HALF + 1 }, () => " ");
    const put = (value: number | undefined, sign: string) => {
      if (value === undefined) return;
      line[HALF + Math.max(-HALF, Math.min(HALF, Math.round(value / step)))] = sign;
    };
    put(-next.analysis.tolerance, "·");
    put(next.analysis.tolerance, "·");
    put(0, "│");
    put(note.old?.cents, "o");
    put(note.next?.cents, "●");
    return `${(names[i] ?? "").padEnd(width)} ${line.join("")}`.trimEnd();
  });
  return [scale, ...rows, t("o before, ● after, │ in tune, · the tolerance")];
}
