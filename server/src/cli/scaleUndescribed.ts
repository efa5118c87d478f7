/** `borewright scale --from A4 --to F4`: sizes of what is not described, by the interval or by a body's rule alone. */
import { type BodyName, bodyCalled, NOTHING_BUT_THE_RULE } from "../design/scale/bodies.js";
import {
  centsBetween,
  centsOfSize,
  OF_AIR,
  percentByInterval,
  type SoundsAt,
  soundsAt,
} from "../design/scale/byInterval.js";
import { percentText } from "../design/scale/inWords.js";
import { signedCents } from "../design/wording.js";
import { jsonText } from "../escape/json.js";
import { intervalName } from "../music/interval.js";
import type { Note } from "../music/note.js";

export interface Undescribed {
  /** Undefined: whatever it sounds now. */
  readonly from: Note | undefined;
  readonly to: readonly Note[];
  readonly percents: readonly number[];
  readonly body: BodyName | undefined;
}

/** What the interval does not cover, where air sounds. Cents by the examples in every key within an octave (test/cli/scale.test.ts). */
const LEFT_OUT = [
  "Left out: friction at the walls, which flattens a small instrument more, and the printer's undersize of holes: a larger print",
  "sounds sharper than the interval says (by a cent or so for each semitone); lips and breath, which do not grow along; temperament.",
  "Walls, holes and the stretch of the fingers grow by the same percentage. Describe the instrument, and `scale FILE` predicts it.",
];

interface Way {
  readonly kept: string | undefined;
  readonly power: number;
}

function waysOf(body: BodyName | undefined): readonly Way[] {
  return body === undefined ? [{ kept: undefined, power: OF_AIR }] : bodyCalled(body).rules;
}

export function undescribedLines(asked: Undescribed): readonly string[] {
  const { body } = asked;
  const blocks = waysOf(body).flatMap(({ kept, power }) => [
    ...(kept === undefined ? [] : [`${kept.charAt(0).toUpperCase()}${kept.slice(1)}:`]),
    ...answers(asked, power).map((line) => (kept === undefined ? line : `  ${line}`)),
  ]);
  if (body === undefined) return [...blocks, "By the interval alone.", ...LEFT_OUT];
  const { formula, source, leavesOut } = bodyCalled(body);
  return [...blocks, NOTHING_BUT_THE_RULE, `${formula}.`, `Source: ${source}.`, `Left out: ${leavesOut}.`];
}

function answers({ from, to, percents }: Undescribed, power: number): readonly string[] {
  const keys = from === undefined ? [] : to.map((note) => toKey(from, note, power));
  return [
    ...keys,
    ...percents.map((percent) => {
      const sounds = from && soundsAt(from, percent, power);
      if (sounds !== undefined) return atPercent(from, sounds);
      return `${percentText(percent)} sounds ${signedCents(centsOfSize(percent, power))} cents away from now.`;
    }),
  ];
}

function toKey(from: Note, to: Note, power: number): string {
  const semitones = to.midi - from.midi;
  const way = semitones === 0 ? "" : ` ${semitones < 0 ? "down" : "up"}`;
  const size = percentText(percentByInterval(from, to, power));
  return `${from.name} to ${to.name}, a ${intervalName(semitones)}${way} (${signedCents(centsBetween(from, to))} cents): ${size}.`;
}

function atPercent(from: Note | undefined, { percent, plays, cents, sizes }: SoundsAt): string {
  const between = sizes.length === 2 ? `, between ${sizes.map(({ to }) => to.name).join(" and ")}` : ", on the note";
  const other = sizes.map(({ to, percent: own }, i) => `${to.name} ${i === 0 ? "would be " : ""}${percentText(own)}`);
  return `What sounds ${from?.name}, at ${percentText(percent)} sounds ${plays.name} ${signedCents(cents)} cents${between}; ${other.join(", ")}.`;
}

export function undescribedJson(asked: Undescribed): string {
  const { from, to, percents, body } = asked;
  return jsonText({
    from: from?.name ?? null,
    body: body ?? "air",
    by: body === undefined ? "the interval alone" : "rule alone",
    rules: waysOf(body).map(({ kept, power }) => ({
      kept: kept ?? null,
      power,
      keys:
        from === undefined ? [] : to.map((note) => ({ key: note.name, percent: percentByInterval(from, note, power) })),
      sizes: percents.map((percent) => {
        const sounds = from && soundsAt(from, percent, power);
        return {
          percent,
          changeCents: centsOfSize(percent, power),
          key: sounds?.plays.name ?? null,
          cents: sounds?.cents ?? null,
          keys: sounds?.sizes.map((each) => ({ key: each.to.name, percent: each.percent })) ?? [],
        };
      }),
    })),
    leftOut: body === undefined ? LEFT_OUT.join(" ") : bodyCalled(body).leavesOut,
  });
}
