/**
 * What each kind of instrument begins with: proportions of an instrument that is in tune at its home key (those of examples/), from
 * which others are scaled and then brought into tune. Lengths in millimetres. Common practice, no source.
 */
import { DEFAULTS } from "../../instrument/defaults.js";
import { type FingeringSystemId, PIPE_SCALES } from "../../music/fingeringSystems.js";
import { told } from "../../words/translation.js";

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
  /** Stations of a bore that is not a cylinder, from its beginning to before the foot, and the foot's diameter; a tube at hand is one. */
  readonly taper?: { readonly stations: readonly HoleRecipe[]; readonly foot: number };
  /** Cents, where it is not the usual 10. */
  readonly tolerance?: number;
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

/** Window, channel, slow air chamber and block of a two-chamber flute. */
const twoChambers: TubeRecipe["mouth"] = (by) => [
  `window: { width: ${mm(10.3 * by)}, cutUp: ${mm(5 * by)}, stopper: 3 }   # the plug ends 3 mm above the window`,
  `windway: { length: 22, width: ${mm(10.3 * by)}, height: 1.1 }      # over the plug`,
  "chamber: { length: 75, diameter: =tube }                # gathers the breath; does not sound",
  "block: { length: 48, width: 20, height: 16 }",
];

/** Of a bore of 20 mm. Common practice, no source. */
const NOTCH = { width: 9, depth: 4.5 } as const;

export const RECIPES = {
  whistle: {
    kind: "tube",
    title: told("Whistle: blown through a duct, six holes"),
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
    mouth: (by) => [`window: { width: ${mm(8.9 * by)}, cutUp: ${mm(4.3 * by)} }   # wider or longer sounds sharper`],
  },
  recorder: {
    kind: "tube",
    title: told("Duct flute with seven holes and thumb, fingered like a recorder"),
    family: "duct",
    system: "seven-hole-and-thumb",
    home: "C5",
    bore: 13,
    length: 294.7,
    taper: {
      stations: [
        { at: 0, diameter: 13 },
        { at: 35.3, diameter: 11.8 },
      ],
      foot: 8.7,
    },
    holes: [
      { at: 96.7, diameter: 3.9, words: "side: back" },
      { at: 118.6, diameter: 5.1 },
      { at: 131.1, diameter: 5 },
      { at: 148.3, diameter: 4.3 },
      { at: 177, diameter: 5.1 },
      { at: 202.3, diameter: 6.1 },
      { at: 213.2, diameter: 4.4 },
      { at: 248, diameter: 5.1 },
    ],
    mouth: (by) => [`window: { width: ${mm(9 * by)}, cutUp: ${mm(3.7 * by)} }   # wider or longer sounds sharper`],
  },
  "three-hole-pipe": {
    kind: "tube",
    title: told("Pipe for one hand: a narrow duct flute with three holes"),
    family: "duct",
    system: "three-hole",
    home: "D5",
    bore: 9.5,
    length: 269.5,
    tolerance: 15,
    holes: [
      { at: 165.3, diameter: 2.1, words: "side: back" },
      { at: 192.7, diameter: 3.8 },
      { at: 233.7, diameter: 7.4 },
    ],
    mouth: (by) => [`window: { width: ${mm(6.1 * by)}, cutUp: ${mm(2.7 * by)} }   # wider or longer sounds sharper`],
  },
  "overtone-flute": {
    kind: "tube",
    title: told("Overtone flute: a long duct flute without holes"),
    family: "duct",
    system: "overtone",
    home: "G3",
    bore: 25,
    length: 825,
    tolerance: 20,
    holes: [],
    // A large one: what a window takes of the length shrinks with the pitch, which stretches the registers of a short tube.
    mouth: (by) => [`window: { width: ${mm(17 * by)}, cutUp: ${mm(8 * by)} }   # wider or longer sounds sharper`],
  },
  "side-blown": {
    kind: "tube",
    title: told("Flute blown across a hole in its side, six holes"),
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
      `cover: ${DEFAULTS.transverseCover}                # share of the hole under the lip`,
      `stopper: ${mm(18 * by)}               # from the hole's centre; tunes the octaves`,
    ],
  },
  "notch-flute": {
    kind: "tube",
    title: told("End-blown flute with a notch, five holes with thumb"),
    family: "rim",
    system: "five-hole-pentatonic",
    home: "D4",
    bore: 20,
    length: 542,
    taper: {
      stations: [
        { at: 0, diameter: 20 },
        { at: 165, diameter: 18.6 },
      ],
      foot: 17.9,
    },
    holes: [
      { at: 254, diameter: 9.5, words: "side: back" },
      { at: 291, diameter: 9.5 },
      { at: 338, diameter: 9.5 },
      { at: 380, diameter: 9.5 },
      { at: 427, diameter: 9.5 },
    ],
    mouth: (by) => [
      `notch: { width: ${mm(NOTCH.width * by)}, depth: ${NOTCH.depth} }   # its edge splits the breath; wider sounds sharper`,
    ],
  },
  "notch-flute-diatonic": {
    kind: "tube",
    title: told("End-blown flute with a notch, six holes and thumb"),
    family: "rim",
    system: "six-hole-and-thumb",
    home: "G4",
    bore: 20,
    length: 382,
    taper: {
      stations: [
        { at: 0, diameter: 20 },
        { at: 117, diameter: 18.6 },
      ],
      foot: 17.9,
    },
    holes: [
      { at: 176, diameter: 8, words: "side: back" },
      { at: 197, diameter: 8.5 },
      { at: 220, diameter: 9 },
      { at: 243, diameter: 9 },
      { at: 270, diameter: 8 },
      { at: 290, diameter: 9 },
      { at: 320, diameter: 8.5 },
    ],
    mouth: (by) => [
      `notch: { width: ${mm(NOTCH.width * by)}, depth: ${NOTCH.depth} }   # its edge splits the breath; wider sounds sharper`,
    ],
  },
  "two-chamber": {
    kind: "tube",
    title: told("Two-chamber flute: breath over a plug, five holes"),
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
    mouth: twoChambers,
  },
  "two-chamber-six": {
    kind: "tube",
    title: told("Two-chamber flute: breath over a plug, six holes"),
    family: "duct",
    system: "two-chamber-six",
    home: "A4",
    bore: 19,
    length: 339,
    air: "played",
    holes: [
      { at: 128.3, diameter: 8.5 },
      { at: 150, diameter: 8.5 },
      { at: 172, diameter: 8 },
      { at: 192, diameter: 8.5 },
      { at: 220.4, diameter: 8.5 },
      { at: 252.4, diameter: 9 },
    ],
    mouth: twoChambers,
  },
  "pan-pipe": { kind: "pipes", title: told("Pan pipe: a row of stopped pipes"), degrees: PIPE_SCALES.diatonic },
  "pan-pipe-pentatonic": {
    kind: "pipes",
    title: told("Pan pipe of five notes an octave"),
    degrees: PIPE_SCALES.pentatonic,
  },
  vessel: {
    kind: "vessel",
    title: told("Vessel flute, six holes opened one after the other"),
    system: "vessel-six",
    home: "C5",
    axes: [62.3, 44, 40],
    window: [9.4, 4.5],
    holes: [
      { diameter: 3.4, angle: 60 },
      { diameter: 3.9, angle: 85 },
      { diameter: 2.9, angle: 115 },
      { diameter: 4.7, angle: -60 },
      { diameter: 5.8, angle: -85 },
      { diameter: 6.7, angle: -115 },
    ],
  },
  "vessel-ten": {
    kind: "vessel",
    title: told("Vessel flute, ten holes opened one after the other"),
    system: "vessel-ten",
    home: "C5",
    axes: [62.1, 43.8, 39.9],
    window: [9.4, 4.5],
    holes: [
      { diameter: 3.4, angle: 40 },
      { diameter: 3.9, angle: 62 },
      { diameter: 2.9, angle: 84 },
      { diameter: 4.8, angle: 106 },
      { diameter: 5, angle: -106 },
      { diameter: 6.8, angle: -84 },
      { diameter: 5.4, angle: -62 },
      { diameter: 7.5, angle: 140 },
      { diameter: 5.7, angle: -140 },
      { diameter: 3.8, angle: -40 },
    ],
  },
  "vessel-twelve": {
    kind: "vessel",
    title: told("Vessel flute, twelve holes opened one after the other"),
    system: "vessel-twelve",
    home: "A4",
    axes: [78, 50, 46],
    window: [9.4, 4.5],
    holes: [
      { diameter: 3.2, angle: 30 },
      { diameter: 2.6, angle: -30 },
      { diameter: 4, angle: 52 },
      { diameter: 4.6, angle: 76 },
      { diameter: 3.4, angle: 100 },
      { diameter: 5.2, angle: 122 },
      { diameter: 5.8, angle: -122 },
      { diameter: 7.2, angle: -100 },
      { diameter: 6.4, angle: -76 },
      { diameter: 8, angle: 150 },
      { diameter: 6, angle: -150 },
      { diameter: 4, angle: -52 },
    ],
  },
  "vessel-cross-fingered": {
    kind: "vessel",
    title: told("Vessel flute, four holes, cross-fingered"),
    system: "vessel-four",
    home: "C5",
    axes: [62, 44, 40],
    window: [9.4, 4.5],
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
