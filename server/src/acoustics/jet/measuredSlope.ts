/** What a note measured at two breaths says of the jet: how much the vortices at the edge take, which decides how steeply notes rise with the breath. */
import { zeroBetween } from "../bracket.js";
import { type Jet, jetOf, type Resonance } from "./jet.js";
import { toneAt } from "./tone.js";

/** One note at two breaths, Pa at the jet's exit, and by how many cents it rose from the first to the second. */
export interface Rise {
  readonly resonance: Resonance;
  readonly from: number;
  readonly to: number;
  readonly cents: number;
}

/** Narrowest sections past an edge that a jet may have, over the opening: from half of the usual vena contracta to hardly any. */
const CONTRACTIONS = [0.3, 1.5] as const;
const TOLERANCE = 1e-4;

/**
 * The contraction with which the note rises as it was measured to; undefined where none does. More loss makes the resonance blunter, and the note rise
 * more, whatever the disputed speed of the jet's bend (docs/breath.md).
 */
export function contractionBy({ voicing, density }: Jet, { resonance, from, to, cents }: Rise): number | undefined {
  const excess = (contraction: number) => {
    const jet = jetOf(voicing, density, contraction);
    const [soft, loud] = [toneAt(jet, resonance, from), toneAt(jet, resonance, to)];
    return soft && loud ? loud.cents - soft.cents - cents : Number.NaN;
  };
  const [least, most] = CONTRACTIONS;
  const [low, high] = [excess(least), excess(most)];
  return low > 0 && high < 0 ? zeroBetween(excess, [least, low], [most, high], TOLERANCE) : undefined;
}
