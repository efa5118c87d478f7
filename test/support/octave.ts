/** A design refitted to every key within an octave up and down: what each leaves, and whether everything that must hold does. */

import { boreRadiusAt, type Column } from "../../server/src/acoustics/column.js";
import { neighbouringFingers } from "../../server/src/design/constraints/fingers.js";
import type { Analysis } from "../../server/src/design/predict/analysis.js";
import { rekey } from "../../server/src/design/rekey/rekey.js";
import { CannotRekey, type RekeyResult } from "../../server/src/design/rekey/rekeyResult.js";
import type { DesignFile } from "../../server/src/document/designFile.js";
import { readDesign } from "../../server/src/document/read.js";
import { sharedColumn } from "../../server/src/instrument/body.js";
import { noteFromMidi } from "../../server/src/music/note.js";
import { foundIn } from "./found.js";

export interface OctaveRow {
  readonly key: string;
  readonly result: RekeyResult | undefined;
  /** Why there is none. */
  readonly refusal: string | undefined;
  /** Greatest distance between neighbouring fingers' holes, and widest hole in front, drawn mm. */
  readonly spread: number;
  readonly widest: number;
  /** What does not hold though it must: read off the written file. */
  readonly broken: readonly string[];
}

export function octaveRow(file: DesignFile, semitones: number): OctaveRow | undefined {
  const instrument = file.documents[0]?.resolution.instrument;
  const note = instrument?.key && noteFromMidi(instrument.key.midi + semitones);
  if (note === undefined) return undefined;
  const nothing = { key: note.name, result: undefined, spread: Number.NaN, widest: Number.NaN, broken: [] };
  try {
    const result = foundIn(() => rekey(file, 0, note, "refit"));
    const document = readDesign(result.text, file.syntax).documents[0];
    const written = document && sharedColumn(document.resolution.instrument.body);
    if (written === undefined) {
      const { kind } = result.after.instrument.body;
      return { ...nothing, result, refusal: undefined, broken: kind === "tube" ? ["no column"] : [] };
    }
    const front = written.holes.filter(({ angle }) => angle === 0);
    return {
      key: note.name,
      result,
      refusal: undefined,
      spread: Math.max(0, ...spreads(result.after, written.holes)),
      widest: Math.max(0, ...front.map(({ radius }) => 2e3 * radius)),
      broken: brokenIn(result, written),
    };
  } catch (error) {
    if (error instanceof CannotRekey) return { ...nothing, refusal: error.message };
    throw error;
  }
}

function spreads(after: Analysis, holes: Column["holes"]): readonly number[] {
  const column = sharedColumn(after.instrument.body);
  if (column === undefined) return [];
  const place = (hole: number) => 1e3 * (holes[hole]?.x ?? Number.NaN);
  return neighbouringFingers(after.instrument, column)
    .filter(({ which }) => which !== "hands")
    .map(({ upper, lower }) => place(lower.holes[0].index) - place(upper.holes[0].index));
}

/** Of millimetres: sums of decimal fractions. */
const SLACK = 1e-6;
/** As DEVELOPERS.md and docs/coupled-model.md state them: the ground the hole formulas were checked on, and four lines of wall. */
const CHECKED_SHARES = [0.2, 0.8] as const;
const LEAST_WALL = 1.6;

/** Each thing that a refit promises to keep, measured again on the written design. */
function brokenIn({ before, after, text }: RekeyResult, { holes, bore, wall, mouth }: Column): readonly string[] {
  const old = sharedColumn(before.instrument.body);
  const stated = (name: string) => Number(new RegExp(`"?${name}"?: ([\\d.]+)`).exec(text)?.[1] ?? Number.NaN);
  const [reach, fingertip] = [stated("reach"), stated("fingertip")];
  const greatestSpread = Math.max(0, ...spreads(after, holes));
  const shares = holes.map(({ x, radius }) => radius / boreRadiusAt(bore, x));
  const walls = holes.map((hole, i) => {
    const next = holes.slice(i + 1).find(({ angle }) => Math.cos(angle - hole.angle) > 0.5);
    return next === undefined ? Number.POSITIVE_INFINITY : 1e3 * (next.x - hole.x - next.radius - hole.radius);
  });
  const last = holes.at(-1);
  const foot = last === undefined ? Number.POSITIVE_INFINITY : 1e3 * ((bore.at(-1)?.x ?? 0) - last.x - last.radius);
  // Where the bore grows with the key, its mouth does.
  const sameMouth =
    text.includes("growth:") ||
    JSON.stringify({ ...mouth, stopper: 0 }) === JSON.stringify({ ...old?.mouth, stopper: 0 });
  const checks: readonly (readonly [string, boolean])[] = [
    ["the reach of the hand", Number.isNaN(reach) || greatestSpread <= reach + SLACK],
    [
      "fingertips",
      Number.isNaN(fingertip) || holes.every((hole) => hole.angle !== 0 || 2e3 * hole.radius <= fingertip + SLACK),
    ],
    ["hole over bore", shares.every((share) => share >= CHECKED_SHARES[0] && share <= CHECKED_SHARES[1])],
    ["wall between holes", Math.min(...walls) >= LEAST_WALL - SLACK],
    ["wall above the foot", foot >= LEAST_WALL - SLACK],
    ["the order of the holes", holes.every(({ x }, i) => x >= (holes[i - 1]?.x ?? 0))],
    ["the wall", wall === old?.wall],
    ["the mouth", sameMouth],
    ["the notes", after.summary?.count === before.summary?.count],
  ];
  return checks.flatMap(([name, held]) => (held ? [] : [name]));
}
