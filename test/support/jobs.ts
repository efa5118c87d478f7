/** Whole jobs, as a maker brings them: a description that is out of tune, brought into tune and into other keys, and what becomes of it. */
import { readFileSync } from "node:fs";
import { join } from "node:path";
import { retune } from "../../server/src/design/refit/rekeyByRefit.js";
import { rekey } from "../../server/src/design/rekey/rekey.js";
import { CannotRekey, type RekeyResult } from "../../server/src/design/rekey/rekeyResult.js";
import type { DesignDocument } from "../../server/src/document/designFile.js";
import { readDesign } from "../../server/src/document/read.js";
import { fingerSpans } from "../../server/src/instrument/hands/fingerSpans.js";
import { doubleHoles } from "../../server/src/instrument/hands/fingers.js";
import { jointsOf } from "../../server/src/instrument/making/joints.js";
import { holesAlong, makingOf } from "../../server/src/instrument/making/making.js";
import { noteFromMidi } from "../../server/src/music/note.js";
import { documentOf } from "./designs.js";
import { foundIn } from "./found.js";

/** From the project's folder, where tests and reports run. */
const FOLDER = "test/jobs";

/** Each job with the keys it is taken to, in semitones from its own; 0 is in tune where it is. */
export const JOBS: readonly (readonly [name: string, title: string, semitones: readonly number[]])[] = [
  ["whistle", "Six-hole whistle", [0, 2, -2]],
  ["transverse", "Tapered transverse flute", [0, 2, -2]],
  ["alto", "Alto duct flute with thumb and double holes", [0, 2]],
  ["notch", "Notch flute", [0, 3, -2]],
  ["pan-pipe", "Pan pipe", [0, 5, -5]],
  ["vessel-4", "Four-hole vessel", [0, 2, -3]],
  ["vessel-10", "Ten-hole vessel", [0, -3]],
  ["vessel-12", "Twelve-hole vessel", [0, 2, -3]],
  ["two-chamber", "Two-chamber flute", [0, 2, -3]],
  ["bass", "Bass flute", [0, 5]],
  ["overtone", "Overtone flute", [0, 3, -2]],
  ["three-hole", "Three-hole pipe", [0, 3, -2]],
];

export function jobText(name: string): string {
  return readFileSync(join(FOLDER, `${name}.bore.yaml`), "utf8");
}

export interface JobRow {
  readonly key: string;
  readonly result: RekeyResult | undefined;
  /** Whether the product refuses it, as what nobody would make. */
  readonly isRefused: boolean;
  /** Why there is none. */
  readonly refusal: string | undefined;
  readonly sizes: JobSizes;
}

/** Of a written design, mm as drawn but for fingers, which are as made. */
export interface JobSizes {
  /** Least distance of two fingers, and greatest of one hand; undefined where it has too few. */
  readonly nearest: number | undefined;
  readonly widest: number | undefined;
  readonly holes: readonly number[];
  readonly bore: string;
  readonly joints: readonly number[];
  /** Findings of hands, holes and printer that are warnings or errors. */
  readonly complaints: readonly string[];
  readonly doubles: readonly string[];
}

export function jobRow(name: string, semitones: number): JobRow {
  const file = readDesign(jobText(name), "yaml");
  const { key } = documentOf(file).resolution.instrument;
  const note = key && noteFromMidi(key.midi + semitones);
  if (note === undefined) throw new Error(`${name} has no such key`);
  let isRefused = false;
  try {
    const result =
      semitones === 0
        ? retune(file, 0, "all")
        : foundIn(
            () => rekey(file, 0, note, "refit"),
            () => {
              isRefused = true;
            },
          );
    const sizes = sizesOf(documentOf(readDesign(result.text, "yaml")));
    return { key: note.name, result, isRefused, refusal: undefined, sizes };
  } catch (error) {
    if (!(error instanceof CannotRekey)) throw error;
    return {
      key: note.name,
      result: undefined,
      isRefused: true,
      refusal: error.message,
      sizes: sizesOf(documentOf(file)),
    };
  }
}

const CHECKED = /^(hands|hole|print)\//;

export function sizesOf({ resolution, findings }: DesignDocument): JobSizes {
  const { draft, instrument, numbers } = resolution;
  const making = makingOf(draft, instrument.fingerings);
  const spans = making === undefined ? [] : fingerSpans(making);
  const stretches = spans.flatMap(({ stretch, reach }) => (reach === undefined ? [] : [stretch]));
  const number = (...path: readonly (string | number)[]) =>
    numbers.find((each) => each.path.join() === path.join())?.value;
  return {
    nearest: spans.length === 0 ? undefined : Math.min(...spans.map(({ apart }) => apart)),
    widest: stretches.length === 0 ? undefined : Math.max(...stretches),
    holes: draft.holes.flatMap(({ diameter }) => diameter ?? []),
    bore: boreText(
      draft.bore?.map(({ at, diameter }) => [at ?? Number.NaN, diameter ?? Number.NaN]),
      number,
    ),
    joints: jointsOf(draft).map(({ at }) => at),
    complaints: findings.flatMap(({ code, severity }) =>
      severity !== "information" && CHECKED.test(code) ? [code] : [],
    ),
    doubles: doubleHoles(making === undefined ? [] : holesAlong(making)).map(([a, b]) => `${a.name}+${b.name}`),
  };
}

function boreText(
  stations: readonly (readonly [number, number])[] | undefined,
  number: (...path: readonly (string | number)[]) => number | undefined,
): string {
  if (stations !== undefined) {
    const widths = [...new Set(stations.map(([, diameter]) => diameter.toFixed(1)))];
    return `${(stations.at(-1)?.[0] ?? Number.NaN).toFixed(1)} × ${widths.join("–")}`;
  }
  const chamber = ["length", "width", "height"].flatMap((side) => number("vessel", side)?.toFixed(1) ?? []);
  if (chamber.length > 0) return chamber.join(" × ");
  const pipes = Array.from({ length: 40 }, (_, i) => number("pipes", i, "length")).flatMap((length) => length ?? []);
  return pipes.map((length) => length.toFixed(1)).join(", ");
}
