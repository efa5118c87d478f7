import { t } from "../../words/translation.js";
import { MILLIMETRES_PER_INCH } from "../defaults.js";
import type { Finding } from "../finding.js";
import type { ResolvedNumber } from "../formula/resolvedNumber.js";
import { placeInWords } from "../placeInWords.js";
import type { NumberRule } from "./rule.js";

/**
 * Beyond these no wind instrument has ever been made and the prediction would only cost time: the longest organ pipes are 20 m long
 * (64-foot stops; common practice, no source), and a hundredth of a millimetre is thinner than paper. Millimetres.
 */
const LONGEST = 20_000;
const THINNEST = 0.01;
/**
 * Least inner width of a bore, a pipe or a chamber: ten times the layer of air that friction holds at a wall at 500 Hz (√(2ν/ω) = 0.1 mm,
 * ν = 1.5e-5 m²/s; Rayleigh). In a narrower one nothing resonates and the prediction has no meaning. Millimetres.
 */
const THINNEST_BORE = 1;
/** A room of ten cubic metres, and a drop of a cubic millimetre; cm³. */
const LARGEST_VOLUME = 1e7;
const SMALLEST_VOLUME = 1e-3;

/** What the air column is made of. Limits, hands and printer may say what they like. */
const PARTS: ReadonlySet<unknown> = new Set(["bore", "holes", "mouth", "pipes", "vessel", "wall"]);
/** Sizes that must be above a least one; places, undercuts and steps may be as small as you like. */
const OPENINGS: ReadonlySet<unknown> = new Set(["diameter", "width", "length", "height", "cutUp", "chimney"]);

/** Where a diameter is the width of the air column itself. */
const BORES: ReadonlySet<unknown> = new Set(["bore", "pipes", "vessel"]);

export const outsideSizes: NumberRule = { code: "value/out-of-range", check: checkSizes };

/** value/out-of-range: sizes that make no instrument, usually a forgotten decimal point. */
function checkSizes(numbers: readonly ResolvedNumber[], unit: "mm" | "in", data: unknown): readonly Finding[] {
  const millimetres = unit === "in" ? MILLIMETRES_PER_INCH : 1;
  return numbers.flatMap(({ path, quantity, value }): readonly Finding[] => {
    if (!PARTS.has(path[0]) || path.includes("limits")) return [];
    const isOpening = OPENINGS.has(path.at(-1)) || path[0] === "wall";
    const thinnest = path.at(-1) === "diameter" && BORES.has(path[0]) ? THINNEST_BORE : THINNEST;
    const range =
      quantity === "length"
        ? { least: isOpening ? thinnest / millimetres : 0, most: LONGEST / millimetres, unit }
        : quantity === "volume"
          ? { least: SMALLEST_VOLUME, most: LARGEST_VOLUME, unit: "cm³" }
          : undefined;
    if (range === undefined || value === 0) return [];
    const rounded = (limit: number) => Number(limit.toPrecision(4));
    const bound =
      Math.abs(value) > range.most
        ? t`at most ${rounded(range.most)}`
        : value > 0 && value < range.least
          ? t`at least ${rounded(range.least)}`
          : undefined;
    if (bound === undefined) return [];
    const message = t`${placeInWords(path, data)} must be ${bound} ${range.unit} to make an instrument, and is ${Number(value.toPrecision(6))} ${range.unit}. Is a decimal point missing?`;
    return [{ code: "value/out-of-range", severity: "error", message, path }];
  });
}
