/** The jet of a duct flute as found from one note measured at two breaths. */
import { jetOf } from "../../acoustics/jet/jet.js";
import { contractionBy } from "../../acoustics/jet/measuredSlope.js";
import type { MeasuredNote } from "../../instrument/model.js";
import { centsAbove } from "../../music/cents.js";
import type { Analysis } from "./analysis.js";
import { type Blown, pastWindway } from "./blown.js";

/** Breaths closer to each other than this give no slope. */
const LEAST_RATIO = 1.2;

export interface MeasuredRise {
  /** Narrowest section of the flow past the edge, over the opening. */
  readonly contraction: number;
  readonly note: string;
}

/** Undefined where no note was measured at two breaths, lips make the jet, or no jet rises so. */
export function measuredRise(
  { instrument, fingerings, air }: Analysis,
  blown: readonly (Blown | undefined)[],
): MeasuredRise | undefined {
  const pairs = instrument.measured.flatMap((soft) =>
    instrument.measured.flatMap((loud) => (areOneNote(soft, loud) ? [{ soft, loud, ratio: ratioOf(soft, loud) }] : [])),
  );
  const [widest] = pairs.filter(({ ratio }) => ratio >= LEAST_RATIO).sort((p, q) => q.ratio - p.ratio);
  if (widest === undefined) return undefined;
  const { soft, loud } = widest;
  const index = fingerings.findIndex(
    ({ fingering: { target, covers } }) =>
      target?.midi === soft.note.midi && (soft.covers === undefined || soft.covers.join() === covers?.join()),
  );
  const played = blown[index];
  if (played === undefined || played.blowing.lips) return undefined;
  const [from, to] = [soft, loud].map(({ pressure }) => pastWindway(played, pressure ?? 0, air)) as [number, number];
  const contraction = contractionBy(played.jet, {
    resonance: played.own,
    from,
    to,
    cents: centsAbove(loud.hz, soft.hz),
  });
  return contraction === undefined ? undefined : { contraction, note: soft.note.name };
}

function areOneNote(soft: MeasuredNote, loud: MeasuredNote): boolean {
  return (
    soft.note.midi === loud.note.midi &&
    soft.covers?.join() === loud.covers?.join() &&
    soft.temperature === loud.temperature
  );
}

const ratioOf = ({ pressure: soft }: MeasuredNote, { pressure: loud }: MeasuredNote): number =>
  soft === undefined || loud === undefined ? 0 : loud / soft;

/** The same fingering with the jet that was measured. */
export function asMeasured(blown: Blown, { contraction }: MeasuredRise): Blown {
  return { ...blown, jet: jetOf(blown.jet.voicing, blown.jet.density, contraction) };
}
