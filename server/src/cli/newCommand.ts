/** `borewright new KIND --key NOTE`: an instrument from nothing, in tune by prediction. */

import { existsSync } from "node:fs";
import { type Command, InvalidArgumentError, Option } from "commander";
import type { Hand, Tube } from "../design/create/firstText.js";
import { newDesign, usualName } from "../design/create/newDesign.js";
import { RECIPE_IDS, RECIPES, type RecipeId } from "../design/create/recipes.js";
import type { AnalysisSettings } from "../design/settings.js";
import { signedCents } from "../design/wording.js";
import { writeFiles } from "../files/writeFiles.js";
import { type Note, parseNote } from "../music/note.js";
import { TUBE_AT_HAND } from "../protocol/newInstrument.js";
import { UnusableInput } from "./exitStatus.js";
import { complain, printDesign } from "./output.js";

interface NewOptions {
  readonly key: Note;
  readonly bore?: number;
  readonly wall?: number;
  readonly hand: Hand;
  readonly name?: string;
  readonly output?: string;
}

const [NARROWEST, WIDEST] = TUBE_AT_HAND.bore;
const [THINNEST, THICKEST] = TUBE_AT_HAND.wall;

export function addNewCommand(root: Command, number: (text: string) => number, settings: AnalysisSettings): void {
  const kinds = RECIPE_IDS.map((id) => `  ${id.padEnd(22)}${RECIPES[id].title}`).join("\n");
  root
    .command("new")
    .description("create a design in tune from kind, key and tube")
    .argument("<kind>", "what kind of instrument: see below", kindOf)
    .requiredOption("--key <note>", "the note with every hole closed, like D5", keyOf)
    .option("--bore <mm>", "inner diameter of the tube at hand; without it, what suits the key", number)
    .option("--wall <mm>", "its wall; without it, a printed one", number)
    .addOption(new Option("--hand <hand>", "whose hands").choices(["adult", "child"]).default("adult"))
    .option("--name <name>", "the instrument's name")
    .option("-o, --output <file>", "write it to a new file instead of printing it")
    .addHelpText("after", `\nKinds:\n${kinds}`)
    .action((kind: RecipeId, options: NewOptions) => {
      const { output } = options;
      if (output !== undefined && !/\.bore\.ya?ml$/.test(output))
        throw new UnusableInput(output, "is not a design's name: end it in .bore.yaml");
      if (output !== undefined && existsSync(output))
        throw new UnusableInput(output, "exists already: choose another name");
      const name = options.name?.replace(/\s+/g, " ").trim() || usualName(kind, options.key);
      const { text, analysis, remarks } = newDesign(
        kind,
        { key: options.key, tube: tubeOf(options), hand: options.hand, name },
        settings,
      );
      const { worstCents = 0, outOfTune = 0 } = analysis.summary ?? {};
      const tune = outOfTune === 0 ? "all in tune" : `${outOfTune} out of tune`;
      complain([
        `${name}: ${analysis.fingerings.length} notes, ${tune}, worst ${signedCents(worstCents)} cents.`,
        ...remarks,
      ]);
      if (output === undefined) printDesign(text);
      else writeFiles([{ file: output, text }]);
    });
}

function kindOf(text: string): RecipeId {
  const kind = RECIPE_IDS.find((id) => id === text);
  if (kind === undefined) throw new InvalidArgumentError(`one of ${RECIPE_IDS.join(", ")}.`);
  return kind;
}

function keyOf(text: string): Note {
  const note = parseNote(text);
  if (note === undefined) throw new InvalidArgumentError("write a note with its octave, like G4, Bb3 or F#5.");
  return note;
}

function tubeOf({ bore, wall }: NewOptions): Tube | undefined {
  if (bore === undefined && wall === undefined) return undefined;
  if (bore === undefined) throw new UnusableInput("--wall", "needs the tube's inner diameter, too: add --bore");
  if (!(bore >= NARROWEST && bore <= WIDEST))
    throw new UnusableInput("--bore", `lies between ${NARROWEST} and ${WIDEST} mm`);
  const thick = wall ?? TUBE_AT_HAND.usualWall;
  if (!(thick >= THINNEST && thick <= THICKEST))
    throw new UnusableInput("--wall", `lies between ${THINNEST} and ${THICKEST} mm`);
  return { bore, wall: thick };
}
