/** What would put a finding right, where one change of the text does. */
import type { Steps } from "../../acoustics/steps.js";
import { correctionFix } from "../../document/correction.js";
import type { DesignDocument, DesignFile, PlacedFinding } from "../../document/designFile.js";
import type { Analysis } from "../predict/analysis.js";
import { besideShift } from "../rekey/commonShift.js";
import { OUT_OF_TUNE, type OutOfTuneData } from "../rules/outOfTune.js";
import { checkedFix, type Fix } from "./checkedFix.js";
import { fixSteps, type HoleFix } from "./fixHole.js";
import { printedFix, renamedFix } from "./togetherFixes.js";

/**
 * Step by step: places and sizes are searched for. The preferred one first.
 * @param fingering of several out of tune that the finding is about, the one to put right; the worst, if left out
 */
export function* findingFixes(
  file: DesignFile,
  document: DesignDocument,
  analysis: Analysis,
  finding: PlacedFinding,
  fingering?: number,
): Steps<readonly Fix[]> {
  const { code, data } = finding;
  const correction = correctionFix(document, finding);
  if (correction !== undefined) return [checkedFix(file, document, correction) ?? []].flat();
  if (code !== OUT_OF_TUNE) return [];
  const fixes = yield* outOfTuneFixes(document, analysis, data as OutOfTuneData, fingering);
  return fixes.flatMap((fix) => checkedFix(file, document, fix) ?? []);
}

function* outOfTuneFixes(
  document: DesignDocument,
  analysis: Analysis,
  data: OutOfTuneData,
  fingering: number | undefined,
): Steps<readonly Fix[]> {
  const { together, fingerings } = data;
  if (together !== undefined)
    return [printedFix(document, together), renamedFix(document, together)].filter((fix) => fix !== undefined);
  const [worst] = fingering === undefined ? fingerings : [fingering];
  if (worst === undefined) return [];
  const fixes = yield* noteFixSteps(document, analysis, data, worst);
  return fixes.toSorted((a, b) => Number(b.preferred) - Number(a.preferred));
}

/** Fixes of one of the fingerings that an out-of-tune finding is about. */
export function* noteFixSteps(
  document: DesignDocument,
  whole: Analysis,
  { hole, beside }: OutOfTuneData,
  fingering: number,
): Steps<readonly HoleFix[]> {
  const analysis = beside === undefined ? whole : besideShift(whole, beside);
  return yield* fixSteps(document, analysis, hole, fingering, beside);
}
