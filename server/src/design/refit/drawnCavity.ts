/** The dimensions of a cavity as they can be drawn: which steps of the drawing come nearest to a size. */
import type { DesignDocument } from "../../document/designFile.js";
import { numberAt } from "../../document/designNumbers.js";
import type { Path } from "../../instrument/finding.js";
import type { NewNumber } from "../edit/numberWriter.js";
import { volumeDecimals } from "../fix/remedy.js";
import { drawnDecimals, toDrawn } from "../wording.js";

export interface DrawnCavity {
  readonly values: readonly NewNumber[];
  /** To write them with. */
  readonly decimals: number;
  /** How many times as large as the cavity of the document, by the cube root of its volume. */
  readonly size: number;
}

const NAMES = ["length", "width", "height", "diameter"] as const;

/**
 * Cavities whose dimensions are drawn within a step of `factor` times those of the document, nearest in volume first; one where the
 * volume itself is stated. The proportions change by no more than the steps.
 */
export function drawnCavities(document: DesignDocument, factor: number): readonly DrawnCavity[] {
  const { instrument } = document.resolution;
  const volume: Path = ["vessel", "volume"];
  const stated = numberAt(document, volume);
  if (stated !== undefined) {
    const value = stated.value * factor ** 3;
    return [{ values: [{ path: volume, value }], decimals: volumeDecimals(value), size: factor }];
  }
  const decimals = drawnDecimals(instrument);
  const shares = sharesOf(document);
  const choices = shares.map(({ name, before }) => {
    const nearest = toDrawn(before * factor, instrument);
    return [nearest, nearest + instrument.rounding, nearest - instrument.rounding]
      .filter((value) => value > 0)
      .map((value) => ({ name, value, before }));
  });
  return combinations(choices)
    .map((chosen): DrawnCavity => {
      const logarithm = chosen.reduce(
        (sum, { value, before }, i) => sum + (shares[i]?.share ?? 0) * Math.log(value / before),
        0,
      );
      const values = chosen.map(({ name, value }) => ({ path: ["vessel", name], value }));
      return { values, decimals, size: Math.exp(logarithm / 3) };
    })
    .sort((a, b) => Math.abs(Math.log(a.size / factor)) - Math.abs(Math.log(b.size / factor)));
}

/** The dimensions that are stated, each with its power in the volume: one width alone, or a diameter, counts across both ways. */
function sharesOf(document: DesignDocument): readonly { name: string; share: number; before: number }[] {
  const stated = NAMES.flatMap((name) => {
    const before = numberAt(document, ["vessel", name])?.value;
    return before === undefined ? [] : [{ name, before }];
  });
  const across = stated.filter(({ name }) => name === "width" || name === "height");
  return stated.map(({ name, before }) => {
    if (name === "length") return { name, before, share: 1 };
    if (name === "diameter") return { name, before, share: stated.length === 1 ? 3 : across.length > 0 ? 0 : 2 };
    return { name, before, share: 2 / across.length };
  });
}

/** Every way to take one of each list. */
function combinations<T>(lists: readonly (readonly T[])[]): readonly (readonly T[])[] {
  return lists.reduce<readonly (readonly T[])[]>(
    (chosen, list) => chosen.flatMap((before) => list.map((each) => [...before, each])),
    [[]],
  );
}
