/** The one finding for notes that are all off by nearly the same amount: at the key, or at the first of them. */

import type { Steps } from "../../acoustics/steps.js";
import { type Budget, within } from "../../acoustics/work.js";
import { hasHoles } from "../../instrument/families/bodyTraits.js";
import type { Finding } from "../../instrument/finding.js";
import type { Resolution } from "../../instrument/model.js";
import { ratioOfCents } from "../../music/cents.js";
import { t } from "../../words/translation.js";
import type { Analysis } from "../predict/analysis.js";
import { type CommonShift, factorSteps, scatterBeyond, soundingKey } from "../rekey/commonShift.js";
import { playsAs } from "../rekey/playsAs.js";
import { printScalePercent } from "../rekey/printScale.js";
import { centsInWords, deviationInWords, signedCents } from "../wording.js";

/** What its fixes need to know; travels with the diagnostic. */
export interface OffTogetherData {
  /** On every dimension. */
  readonly factor: number;
  /** Name of the key that it sounds in, where the design states one. */
  readonly key?: string;
}

export function* offTogether(
  resolution: Resolution,
  analysis: Analysis,
  shift: CommonShift,
  budget: Budget,
): Steps<Pick<Finding, "message" | "path"> & { readonly together: OffTogetherData }> {
  const { key, body, printScale } = analysis.instrument;
  const sounding = soundingKey(analysis, shift);
  // Without the work for it, pitch goes as size: a cent or two from what the friction at the walls makes of it.
  const factor = (yield* within(budget, factorSteps(resolution, analysis, shift))) ?? ratioOfCents(shift.cents);
  const several = shift.fingerings.length === shift.count ? t("All") : t`${shift.fingerings.length} of`;
  const about =
    sounding === undefined
      ? between(resolution, analysis, shift)
      : t`: it sounds about ${sounding.name}, not ${key?.name}`;
  const or = sounding === undefined ? "" : t`; or call its key ${sounding.name}`;
  const message =
    t`${several} ${shift.count} notes sound about ${deviationInWords(shift.cents)} together${about}. ` +
    t`The cause is its size, not ${hasHoles(body) ? t("its holes") : t("single pipes")}: print it at ${printScalePercent(printScale * factor)} % (every dimension × ${factor.toFixed(3)})${or}.${scatterInWords(scatterBeyond(analysis, shift))}`;
  return {
    message,
    path: key === undefined ? firstOf(analysis, shift) : ["key"],
    together: { factor, ...(sounding === undefined ? {} : { key: sounding.name }) },
  };
}

/** What no change of size corrects, and the remedy that does. */
function scatterInWords(cents: number | undefined): string {
  if (cents === undefined) return "";
  return t` They differ by up to ${centsInWords(cents)} from that: bring every note into tune as well (\`retune\`, or \`rekey --by refit\`), or take a bore that suits this length.`;
}

/** A size between two keys is named by the nearer. */
function between(resolution: Resolution, analysis: Analysis, { fingerings }: CommonShift): string {
  const plays = analysis.instrument.key && playsAs(resolution, analysis, new Set(fingerings));
  if (plays?.between === undefined) return "";
  return t`: it plays ${plays.key.name} ${signedCents(plays.cents)} cents, between ${plays.between.map(({ name }) => name).join(t(" and "))}`;
}

function firstOf({ fingerings }: Analysis, shift: CommonShift): Finding["path"] {
  const { path, targetKind } = fingerings[shift.fingerings[0] ?? 0]?.fingering ?? { path: [], targetKind: "note" };
  return [...path, targetKind];
}
