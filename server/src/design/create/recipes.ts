/**
 * What each kind of instrument begins with: proportions of an instrument that is in tune at its home key (those of examples/), from
 * which others are scaled and then brought in tune. Lengths in millimetres. Common practice, no source.
 */
import type { FingeringSystemId } from "../../music/fingeringSystems.js";

export interface HoleRecipe {
  readonly at: number;
  readonly diameter: number;
  /** Further words of the hole, as they are written. */
  readonly words?: string;
}

/** A tube with finger holes. */
export interface TubeRecipe {
  readonly kind: "tube";
  readonly title: string;
  readonly family: "duct" | "transverse" | "rim";
  readonly system: FingeringSystemId;
  readonly home: string;
  readonly bore: number;
  readonly length: number;
  readonly holes: readonly HoleRecipe[];
  /** Lines under `mouth:`, from the bore's diameter over the home's. */
  readonly mouth: (by: number) => readonly string[];
  /** Where the bore begins, in bore diameters. */
  readonly from?: number;
  readonly air?: string;
}

/** A set of stopped pipes: one for each degree. */
export interface PipesRecipe {
  readonly kind: "pipes";
  readonly title: string;
  readonly degrees: readonly number[];
}

/** A cavity with holes round it. */
export interface VesselRecipe {
  readonly kind: "vessel";
  readonly title: string;
  readonly system: FingeringSystemId;
  readonly home: string;
  readonly axes: readonly [length: number, width: number, height: number];
  readonly window: readonly [width: number, cutUp: number];
  readonly holes: readonly { readonly diameter: number; readonly angle: number }[];
}

export type Recipe = TubeRecipe | PipesRecipe | VesselRecipe;

/** A length as a new design writes it. */
export const mm = (value: number) => String(Number(value.toFixed(1)));

export const RECIPES = {
  whistle: {
    kind: "tube",
    title: "Whistle: blown through a duct, six holes",
    family: "duct",
    system: "six-hole",
    home: "G4",
    bore: 16,
    length: 394.6,
    holes: [
      { at: 173.3, diameter: 7 },
      { at: 205.3, diameter: 8.5 },
      { at: 229.8, diameter: 7 },
      { at: 270.8, diameter: 7 },
      { at: 289.6, diameter: 8.5 },
      { at: 321.4, diameter: 6.5 },
    ],
    mouth: (by) => [`window: { width: ${mm(10 * by)}, cutUp: ${mm(4.5 * by)} }   # wider or longer sounds sharper`],
  },
  "side-blown": {
    kind: "tube",
    title: "Flute blown across a hole in its side, six holes",
    family: "transverse",
    system: "six-hole",
    home: "D4",
    bore: 19,
    length: 530.9,
    from: -0.95,
    holes: [
      { at: 237.1, diameter: 7.5 },
      { at: 277.2, diameter: 8.5 },
      { at: 308.8, diameter: 7.5 },
      { at: 367.3, diameter: 8 },
      { at: 395.4, diameter: 9 },
      { at: 429.7, diameter: 6.5 },
    ],
    mouth: (by) => [
      `hole: { length: ${mm(10.5 * by)}, width: ${mm(11.5 * by)} }   # along and across the tube`,
      "cover: 0.45                # share of the hole under the lip",
      `stopper: ${mm(18 * by)}               # from the hole's centre; tunes the octaves`,
    ],
  },
  "notch-flute": {
    kind: "tube",
    title: "End-blown flute with a notch, five holes with thumb",
    family: "rim",
    system: "five-hole-pentatonic",
    home: "D4",
    bore: 18,
    length: 545,
    holes: [
      { at: 262, diameter: 9.5, words: "side: back" },
      { at: 300, diameter: 9.5 },
      { at: 348, diameter: 9.5 },
      { at: 392, diameter: 9.5 },
      { at: 440, diameter: 9.5 },
    ],
    mouth: () => ["cover: 0.7                 # share of the end under the lip"],
  },
  "notch-flute-diatonic": {
    kind: "tube",
    title: "End-blown flute with a notch, six holes and thumb",
    family: "rim",
    system: "six-hole-and-thumb",
    home: "G4",
    bore: 18,
    length: 413.3,
    holes: [
      { at: 190.8, diameter: 8, words: "side: back" },
      { at: 213, diameter: 8.5 },
      { at: 238, diameter: 9 },
      { at: 263, diameter: 9 },
      { at: 292, diameter: 8 },
      { at: 313, diameter: 9 },
      { at: 346, diameter: 8.5 },
    ],
    mouth: () => ["cover: 0.7                 # share of the end under the lip"],
  },
  "two-chamber": {
    kind: "tube",
    title: "Two-chamber flute: breath over a plug, five holes",
    family: "duct",
    system: "two-chamber-five",
    home: "A4",
    bore: 19,
    length: 339,
    air: "played",
    holes: [
      { at: 128.3, diameter: 8.5 },
      { at: 148.4, diameter: 9 },
      { at: 190.2, diameter: 8.5 },
      { at: 220.4, diameter: 8.5 },
      { at: 252.4, diameter: 9 },
    ],
    mouth: (by) => [
      `window: { width: ${mm(11 * by)}, cutUp: ${mm(5.5 * by)}, stopper: 3 }   # the plug ends 3 mm above the window`,
      `windway: { length: 22, width: ${mm(11 * by)}, height: 1.1 }        # over the plug`,
      "chamber: { length: 75, diameter: =tube }                # gathers the breath; does not sound",
      "block: { length: 48, width: 20, height: 16 }",
    ],
  },
  "pan-pipe": { kind: "pipes", title: "Pan pipe: a row of stopped pipes", degrees: [1, 2, 3, 4, 5, 6, 7, 8] },
  vessel: {
    kind: "vessel",
    title: "Vessel flute, six holes opened one after the other",
    system: "vessel-six",
    home: "C5",
    axes: [62.3, 44, 40],
    window: [10, 5],
    holes: [
      { diameter: 3.4, angle: 60 },
      { diameter: 3.9, angle: 85 },
      { diameter: 2.9, angle: 115 },
      { diameter: 4.7, angle: -60 },
      { diameter: 5.8, angle: -85 },
      { diameter: 6.7, angle: -115 },
    ],
  },
  "vessel-cross-fingered": {
    kind: "vessel",
    title: "Vessel flute, four holes, cross-fingered",
    system: "vessel-four",
    home: "C5",
    axes: [62, 44, 40],
    window: [10, 5],
    holes: [
      { diameter: 3.4, angle: 60 },
      { diameter: 5.2, angle: 100 },
      { diameter: 7.2, angle: -60 },
      { diameter: 8, angle: -100 },
    ],
  },
} as const satisfies Readonly<Record<string, Recipe>>;

export type RecipeId = keyof typeof RECIPES;
export const RECIPE_IDS = Object.keys(RECIPES) as readonly RecipeId[];
