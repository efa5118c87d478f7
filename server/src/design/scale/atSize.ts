/** What an instrument plays, and how it lies in the hand and on the printer, at another print scale. */
import { drained, type Steps } from "../../acoustics/steps.js";
import { isDescribed } from "../../instrument/body.js";
import type { Finding } from "../../instrument/finding.js";
import { type MadeSizes, madeSizesOf } from "../../instrument/making/madeSizes.js";
import type { Resolution } from "../../instrument/model.js";
import { graded } from "../../instrument/ruleLevels.js";
import { type Note, noteFromMidi } from "../../music/note.js";
import { analysisSteps } from "../predict/analyse.js";
import type { Analysis } from "../predict/analysis.js";
import { longestOf } from "../predict/body.js";
import { asIfSteps } from "../rekey/asIf.js";
import { type PlaysAs, playsAs } from "../rekey/playsAs.js";
import { printScalePercent } from "../rekey/printScale.js";
import { sizeFactorSteps } from "../rekey/sizeFactor.js";

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
  /** As `at`, step by step. */
  steps(percent: number): Steps<AtSize>;
  /** The print scale of a key, percent. */
  percentFor(key: Note): number;
}

/** Answers for several sizes of one design. @throws Cancelled when `shouldStop` says so */
export function sizesOf(resolution: Resolution, analysis: Analysis, shouldStop?: () => boolean): Sizes {
  const known = new Map<number, number>();
  const options = shouldStop === undefined ? {} : { shouldStop };
  const percentSteps = function* (key: Note): Steps<number> {
    const present = known.get(key.midi);
    if (present !== undefined) return present;
    const factor = yield* sizeFactorSteps(resolution, analysis, { key, ...options });
    const percent = printScalePercent(resolution.instrument.printScale * factor);
    known.set(key.midi, percent);
    return percent;
  };
  const steps = function* (percent: number): Steps<AtSize> {
    const isPresent = percent === 100 * resolution.instrument.printScale;
    const sized = isPresent ? resolution : yield* asIfSteps(resolution, { printPercent: percent });
    const there = isPresent ? analysis : yield* analysisSteps(sized.instrument, analysis, options);
    const plays = playsAs(sized, there);
    const keys = plays === undefined ? [] : [plays.key, ...neighboursOf(plays)].sort((a, b) => a.midi - b.midi);
    const sizes: KeySize[] = [];
    for (const key of keys) sizes.push({ key, percent: yield* percentSteps(key) });
    return {
      percent,
      plays,
      keys: sizes,
      length: longestOf(sized.instrument.body),
      made: isDescribed(sized.instrument.body) ? madeSizesOf(sized) : undefined,
      findings: graded(sized.findings, sized.ruleLevels, {}).filter(({ code }) => HANDS_OR_PRINTER.test(code)),
    };
  };
  return {
    at: (percent) => drained(steps(percent)),
    steps,
    percentFor: (key) => drained(percentSteps(key)),
  };
}

/** The other key it lies between; of one that is on its note, both beside it. */
function neighboursOf({ key, between }: PlaysAs): readonly Note[] {
  if (between !== undefined) return between.filter(({ midi }) => midi !== key.midi);
  return [-1, 1].flatMap((step) => noteFromMidi(key.midi + step) ?? []);
}
