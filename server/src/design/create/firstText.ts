/** A new design as text, with comments that teach: plausible, but not yet in tune. */
import { quotedLike } from "../../document/quoting.js";
import { DEFAULTS } from "../../instrument/defaults.js";
import { FINGERING_SYSTEMS, type FingeringSystem, fingeringText } from "../../music/fingeringSystems.js";
import { type Note, noteOfDegree, parseNote } from "../../music/note.js";
import { USUAL_GROWTH } from "../rekey/usualGrowth.js";
import { mm, type PipesRecipe, type Recipe, type TubeRecipe, type VesselRecipe } from "./recipes.js";

/** Millimetres. */
export interface Tube {
  readonly bore: number;
  readonly wall: number;
}

export type Hand = "adult" | "child";

export interface Wanted {
  readonly key: Note;
  /** The tube at hand; undefined: what suits the key, with printed walls. */
  readonly tube: Tube | undefined;
  readonly hand: Hand;
  readonly name: string;
}

/** mm: printed walls of a tube, of seven lines of a 0.4 mm nozzle and of five, and the bore from which the thicker is taken. Common practice, no source. */
const PRINTED_WALL = 3;
const THIN_WALL = 2;
const THICK_FROM = 15;
/** mm: reach between neighbouring fingers, and the widest hole a fingertip closes. Common practice, no source. */
const HANDS: Readonly<Record<Hand, { readonly reach: number; readonly fingertip: number }>> = {
  adult: { reach: 40, fingertip: 11 },
  child: { reach: 30, fingertip: 8 },
};
/** Speed of sound at 22 °C, m/s, for a first length only. */
const SOUND = 344.4;
/** Ends that a stopped pipe's mouth adds, in diameters, for a first length only. */
const PIPE_END = 0.7;
/** A pipe's diameter as a share of its length. Common practice, no source. */
const PIPE_SHARE = 1 / 12;
const SEMITONE = 2 ** (1 / 12);

export function firstText(recipe: Recipe, wanted: Wanted): string {
  const head = (family: string) => [
    // Lines short enough to be read beside the bore view.
    `# ${recipe.title}.`,
    "# In tune by prediction. Make it, write what it sounds under `measured`,",
    "# calibrate, and make it again.",
    "# It touches the mouth: plain filament sold for food contact, the lip area",
    "# smoothed and sealed, washed warm before another person plays.",
    "borewright: 1",
    `name: ${quotedLike("", wanted.name, "yaml", false)}`,
    `family: ${family}`,
    `key: ${wanted.key.name}                    # with every hole closed; Rekey moves the whole instrument`,
  ];
  switch (recipe.kind) {
    case "tube":
      return [...head(recipe.family), ...tubeText(recipe, wanted)].join("\n");
    case "pipes":
      return [...head("panpipe"), ...pipesText(recipe, wanted)].join("\n");
    case "vessel":
      return [...head("vessel"), ...vesselText(recipe, wanted)].join("\n");
  }
}

/** How much longer an instrument is in a key than in its home key. */
function growth(home: string, key: Note): number {
  return SEMITONE ** ((parseNote(home)?.midi ?? key.midi) - key.midi);
}

function common(air = "{ temperature: 22, humidity: 60 }", tolerance = 10): readonly string[] {
  return [`tolerance: ${tolerance}              # cents; beyond it a note is out of tune`, `air: ${air}`, ""];
}

function tubeText(recipe: TubeRecipe, { key, tube, hand }: Wanted): readonly string[] {
  const longer = growth(recipe.home, key);
  const bore = tube?.bore ?? Math.round(recipe.bore * longer ** USUAL_GROWTH * 2) / 2;
  const wall = tube?.wall ?? (bore < THICK_FROM ? THIN_WALL : PRINTED_WALL);
  const wider = bore / recipe.bore;
  const { fingertip } = HANDS[hand];
  const { holes: names } = FINGERING_SYSTEMS[recipe.system];
  const taper = tube === undefined ? recipe.taper : undefined;
  return [
    ...common(recipe.air, recipe.tolerance),
    "parameters:",
    `  tube: ${mm(bore)}                 # inner diameter${taper === undefined ? "" : ", where it is widest"}`,
    `  wall: ${mm(wall)}`,
    "",
    "mouth:",
    ...recipe.mouth(wider).map((line) => `  ${line}`),
    "",
    "bore:                      # stations along the axis, 0 at the mouth opening's centre",
    ...boreLines(recipe, { bore, longer, tapers: taper !== undefined }),
    "wall: =wall",
    "",
    recipe.holes.length === 0 ? "holes: []" : "holes:                     # from the mouth to the foot",
    ...recipe.holes.map(({ at, diameter, words }, i) => {
      const size = Math.min(fingertip, diameter * wider);
      return `  - { name: ${names[i]}, at: ${mm(at * longer)}, diameter: ${mm(size)}${words === undefined ? "" : `, ${words}`} }`;
    }),
    "",
    ...fingerings(FINGERING_SYSTEMS[recipe.system]),
    ...closing(hand, tube),
  ];
}

function boreLines(
  { taper, length, from, bore: home }: TubeRecipe,
  { bore, longer, tapers }: { readonly bore: number; readonly longer: number; readonly tapers: boolean },
): readonly string[] {
  const station = (at: number, diameter: string) => `  - { at: ${mm(at)}, diameter: ${diameter} }`;
  if (taper === undefined || !tapers)
    return [station(from === undefined ? 0 : from * bore, "=tube"), station(length * longer, "=tube")];
  const wider = bore / home;
  const [first, ...others] = taper.stations;
  return [
    station((first?.at ?? 0) * longer, "=tube"),
    ...others.map(({ at, diameter }) => station(at * longer, mm(diameter * wider))),
    station(length * longer, mm(taper.foot * wider)),
  ];
}

function pipesText({ degrees }: PipesRecipe, { key, tube, hand }: Wanted): readonly string[] {
  const pipes = degrees.flatMap((degree) => noteOfDegree(key, degree) ?? []);
  return [
    ...common(),
    `mouth: { cover: ${DEFAULTS.pipeCover} }     # share of each pipe's mouth under the lip`,
    `wall: ${mm(tube?.wall ?? 2)}`,
    "",
    "pipes:                     # each a tube, stopped at the lower end",
    ...pipes.map(({ name, midi }) => {
      const quarter = (1000 * SOUND) / (4 * 440 * SEMITONE ** (midi - 69));
      const diameter = tube?.bore ?? Math.max(8, Math.round(quarter * PIPE_SHARE * 2) / 2);
      return `  - { note: ${name}, length: ${mm(quarter - PIPE_END * diameter)}, diameter: ${mm(diameter)} }`;
    }),
    "",
    ...closing(hand, tube).filter((line) => !line.startsWith("hands:")),
  ];
}

function vesselText(
  { home, axes, window, holes, system }: VesselRecipe,
  { key, tube, hand }: Wanted,
): readonly string[] {
  // A cavity's note falls with its size: all dimensions alike.
  const larger = growth(home, key);
  const { holes: names } = FINGERING_SYSTEMS[system];
  const [length, width, height] = axes.map((axis) => mm(axis * larger));
  return [
    ...common(),
    "mouth:",
    `  window: { width: ${mm(window[0] * larger)}, cutUp: ${mm(window[1] * larger)} }`,
    "",
    `vessel: { shape: ellipsoid, length: ${length}, width: ${width}, height: ${height} }   # inner sizes`,
    `wall: ${mm(tube?.wall ?? PRINTED_WALL)}`,
    "",
    "holes:                     # only their sizes count; where they lie is for the fingers",
    ...holes.map(
      ({ diameter, angle }, i) => `  - { name: ${names[i]}, diameter: ${mm(diameter * larger)}, angle: ${angle} }`,
    ),
    "",
    ...fingerings(FINGERING_SYSTEMS[system]),
    ...closing(hand, tube),
  ];
}

function fingerings({ rows, title, breath }: FingeringSystem): readonly string[] {
  return [
    ...(breath === undefined
      ? []
      : [
          `breath: { lowest: ${breath.lowest}, highest: ${breath.highest} }   # cents: a breath that rises from soft to hard`,
          "",
        ]),
    `# ${title.charAt(0).toUpperCase()}${title.slice(1)}. Common practice: schools differ in crossed fingerings`,
    "fingerings:                # ● closed, ○ open, ◐ half",
    ...rows.map((row) => `  - ${fingeringText(row)}`),
    "",
  ];
}

function closing(hand: Hand, tube: Tube | undefined): readonly string[] {
  const { reach, fingertip } = HANDS[hand];
  return [
    ...(tube === undefined ? ["print: { nozzle: 0.4, scale: 100 %, shrinkage: 0.2 %, holeUndersize: 0.15 }"] : []),
    `hands: { reach: ${reach}, fingertip: ${fingertip} }   # mm, ${hand === "child" ? "a child's" : "an adult's"}: neighbours, widest hole`,
    "",
  ];
}
