/** response/weak-note: a note whose resonance is shallow, or does not hold its pitch. */

import type { Steps } from "../../acoustics/steps.js";
import type { Body } from "../../instrument/body.js";
import { besideEachOther } from "../../instrument/digits.js";
import type { Finding, RuleCode } from "../../instrument/finding.js";
import { t, told } from "../../words/translation.js";
import type { Analysis } from "../predict/analysis.js";
import { nameOfFingering } from "../predict/governing.js";
import { type NoteResponse, responseSteps } from "../predict/response.js";
import type { Rule } from "./rule.js";

export const WEAK_NOTE: RuleCode = "response/weak-note";

/**
 * dB below the bore's own impedance. Notes of ordinary fingerings have 18 to 31; the weakest of the finite-element cases, a
 * lower part of the tube sounding by itself, 6. Our own limit.
 */
const LEAST_STRENGTH = 12;
/**
 * A jet that drives φ beside the resonance bends it by 866·tan φ/Q cents (any resonator of quality factor Q). Below 20, 30° of it
 * bend by more than 25 cents. Our own limit.
 */
const LEAST_QUALITY = 20;
const BENDING = 866 * Math.tan(Math.PI / 6);

export const weakNote: Rule = {
  code: WEAK_NOTE,
  check: weakNoteSteps,
};

/** A finding for each weak or unsteady note. */
export function* weakNoteSteps(analysis: Analysis): Steps<readonly Finding[]> {
  const responses = yield* responseSteps(analysis);
  return responses.flatMap((response, index): readonly Finding[] => {
    const prediction = analysis.fingerings[index];
    const reason = response && reasonOf(response);
    if (response === undefined || reason === undefined || prediction === undefined) return [];
    const message = `${nameOfFingering(prediction)} ${reason}${aboveCutOff(response, analysis, index)} ${remedyFor(analysis)}`;
    return [{ code: WEAK_NOTE, severity: "information", message, path: prediction.fingering.path }];
  });
}

const REMEDIES: Readonly<Record<Body["kind"], string>> = {
  tube: told("Try another fingering or register, or open the holes below it wider."),
  pipes: told("Use a tube of another width."),
  vessel: told("Narrow the open holes, and make the vessel smaller to keep the pitch."),
};

function remedyFor({ instrument }: Analysis): string {
  return t(REMEDIES[instrument.body.kind]);
}

function reasonOf({ strength, quality }: NoteResponse): string | undefined {
  if (strength < LEAST_STRENGTH) {
    const [is, wanted] = besideEachOther([
      { value: strength, decimals: 0 },
      { value: LEAST_STRENGTH, decimals: 0 },
    ]);
    return t`will be weak: its resonance is only ${is} dB deep, where ${wanted} are needed.`;
  }
  if (quality < LEAST_QUALITY)
    return t`will not hold its pitch: its resonance is so broad that breath bends it by some ${(BENDING / quality).toFixed(0)} cents.`;
  return undefined;
}

/** Said where it is a reason: the note lies above the cut-off of the open holes. */
function aboveCutOff({ cutOffs }: NoteResponse, { fingerings }: Analysis, index: number): string {
  const lowest = Math.min(...cutOffs.map(({ frequency }) => frequency));
  const hz = fingerings[index]?.predictedHz ?? 0;
  return hz > lowest ? t` It lies above the cut-off of its open holes, ${lowest.toFixed(0)} Hz.` : "";
}
