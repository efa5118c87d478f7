/** What an instrument plays, and how it lies in the hand and on the printer, at another print scale. */
import { isDescribed } from "../../instrument/body.js";
import type { Finding } from "../../instrument/finding.js";
import { type MadeSizes, madeSizesOf } from "../../instrument/madeSizes.js";
import type { Resolution } from "../../instrument/model.js";
import { graded } from "../../instrument/ruleLevels.js";
import { type Note, noteFromMidi } from "../../music/note.js";
import { analyse } from "../predict/analyse.js";
import type { Analysis } from "../predict/analysis.js";
import { longestOf } from "../predict/body.js";
import { asIf } from "../rekey/asIf.js";
import { type PlaysAs, playsAs } from "../rekey/playsAs.js";
import { printScalePercent } from "../rekey/printScale.js";
import { sizeFactor } from "../rekey/sizeFactor.js";

export interface KeySize {
  readonly key: Note;
  /** Print scale in percent of the drawing, as rekeying by print scale writes it. */
  readonly percent: number;
}

export interface AtSize {
  /** Of the drawing. */
  readonly percent: number;
  /** Undefined where nothing of that size sounds. */
  readonly plays: PlaysAs | undefined;
  /** The size of the key it plays in, and of those next to it, lowest first. */
  readonly keys: readonly KeySize[];
  /** Length of the finished bore, longest pipe or cavity, m. */
  readonly length: number;
  readonly made: MadeSizes | undefined;
  /** Of hands and printer at that size, by the design's own grading. */
  readonly findings: readonly Finding[];
}

const HANDS_OR_PRINTER = /^(hands|print)\//;

export interface Sizes {
  at(percent: number): AtSize;
  /** The print scale of a key, percent. */
  percentFor(key: Note): number;
}

/** Answers for several sizes of one design. @throws Cancelled when `shouldStop` says so */
export function sizesOf(resolution: Resolution, analysis: Analysis, shouldStop?: () => boolean): Sizes {
  const known = new Map<number, number>();
  const options = shouldStop === undefined ? {} : { shouldStop };
  const percentFor = (key: Note): number => {
    const percent =
      known.get(key.midi) ??
      printScalePercent(resolution.instrument.printScale * sizeFactor(resolution, analysis, { key, ...options }));
    known.set(key.midi, percent);
    return percent;
  };
  const at = (percent: number): AtSize => {
    const isPresent = percent === 100 * resolution.instrument.printScale;
    const sized = isPresent ? resolution : asIf(resolution, { printPercent: percent });
    const there = isPresent ? analysis : analyse(sized.instrument, analysis, options);
    const plays = playsAs(sized, there);
    const keys = plays === undefined ? [] : [plays.key, ...neighboursOf(plays)].sort((a, b) => a.midi - b.midi);
    return {
      percent,
      plays,
      keys: keys.map((key) => ({ key, percent: percentFor(key) })),
      length: longestOf(sized.instrument.body),
      made: isDescribed(sized.instrument.body) ? madeSizesOf(sized) : undefined,
      findings: graded(sized.findings, sized.ruleLevels, {}).filter(({ code }) => HANDS_OR_PRINTER.test(code)),
    };
  };
  return { at, percentFor };
}

/** The other key it lies between; of one that is on its note, both beside it. */
function neighboursOf({ key, between }: PlaysAs): readonly Note[] {
  if (between !== undefined) return between.filter(({ midi }) => midi !== key.midi);
  return [-1, 1].flatMap((step) => noteFromMidi(key.midi + step) ?? []);
}
