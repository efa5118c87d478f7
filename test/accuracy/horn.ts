/** Source: test/reference/horn.json, the lossy horn equation integrated by scipy (test/reference/horn/horn.py). */
import type { AirState } from "../../server/src/acoustics/airState.js";
import type { Column } from "../../server/src/acoustics/column.js";
import { inputImpedance, registersOf } from "../../server/src/acoustics/resonance.js";
import data from "../reference/horn.json" with { type: "json" };
import { type ComparisonTable, inCents } from "./comparison.js";

type Case = (typeof data.cases)[number];

const MM = 1e-3;

const title = ({ name, celsius }: Case) => `${name}, ${celsius} °C`;
const airOf = ({ air, losses }: Case): AirState => ({ ...air, losses });

function columnOf({ bore, foot }: Case): Column {
  const stations = bore.map(([x, diameter]) => ({ x: (x as number) * MM, radius: ((diameter as number) / 2) * MM }));
  return { bore: stations, wall: 0, foot: foot as Column["foot"], holes: [], mouth: { kind: "ideal" } };
}

/** Straight tubes, and cones without losses, are solved exactly by us too; of a step's near field we have a fit within 1 %. */
const isExact = ({ name, foot, losses }: Case) => {
  if (foot !== "stopped" || name.startsWith("step")) return false;
  return !losses || !/cone|taper/.test(name);
};

/**
 * Distance of the two impedances over the larger of |Z| and ρc/S: next to a resonance |Z| itself is small, and what is left would be
 * the shift of the resonance.
 */
function impedanceDistance(each: Case): number {
  const frequencies = each.impedance.map(([f]) => f as number);
  const ours = inputImpedance(columnOf(each), airOf(each), [], frequencies);
  const radius = (each.bore[0]?.[1] as number) * MM * 0.5;
  const unit = (each.air.density * each.air.soundSpeed) / (Math.PI * radius ** 2);
  const distances = each.impedance.map(([, re, im], i) => {
    const { re: ourRe, im: ourIm } = ours[i] as { re: number; im: number };
    const [theirRe, theirIm] = [re as number, im as number];
    return Math.hypot(ourRe - theirRe, ourIm - theirIm) / Math.max(unit, Math.hypot(theirRe, theirIm));
  });
  return Math.max(...distances);
}

/** Our own equation: rounding only. A cone's slices have one mean radius each; an open foot has fitted formulas, theirs the integrals. */
const allowedShare = (each: Case): number => (isExact(each) ? 1e-7 : each.foot === "stopped" ? 2e-3 : 1e-2);
const allowedCents = (each: Case): number => (isExact(each) ? 1e-5 : 0.12);

const shared = {
  source:
    "The lossy horn equation, integrated along the bore with scipy. Wall losses follow the local radius (Zwikker & Kosten 1949); an open foot has the integrals of Levine & Schwinger 1948: `test/reference/horn.json`, made by `horn/horn.py`.",
};

export const hornImpedances: ComparisonTable = {
  ...shared,
  title: "Bores without holes: input impedance",
  unknown:
    "As above. Each difference is the worst of eleven frequencies from 110 to 3000 Hz, as a share of the larger of |Z| and ρc/S. On the flank of a steep peak it shows a shift of a hundredth of a cent.",
  differenceUnit: "ppm",
  differenceDecimals: 2,
  rows: data.cases.map((each) => ({
    case: title(each),
    difference: impedanceDistance(each) * 1e6,
    allowed: allowedShare(each) * 1e6,
  })),
};

export const hornResonances: ComparisonTable = {
  ...shared,
  title: "Bores without holes: resonances",
  unknown:
    "This solves the same equation by another method, so it shows errors in our solution, not in the equation. Straight tubes and lossless cones are exact in both. Differences elsewhere come from our fit for the near field of a step (theirs is mode matching), from our single mean radius for the losses of each slice of a cone, and from our fitted formula for an open foot.",
  unit: "Hz",
  decimals: 3,
  differenceUnit: "cents",
  differenceDecimals: 3,
  rows: data.cases.flatMap((each) => {
    const found = registersOf(columnOf(each), airOf(each), [], each.resonances.length);
    return each.resonances.map((hz, i) =>
      inCents(`${title(each)}, register ${i + 1}`, found[i]?.frequency ?? Number.NaN, hz, allowedCents(each)),
    );
  }),
};
