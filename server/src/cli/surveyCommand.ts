/** `borewright survey MESH`: a design from a printable model. */
import { existsSync } from "node:fs";
import { basename } from "node:path";
import { type Command, Option } from "commander";
import type { AnalysisSettings } from "../design/settings.js";
import { surveyedDesign } from "../design/survey/surveyedDesign.js";
import { readBytes } from "../files/readText.js";
import { writeFiles } from "../files/writeFiles.js";
import { MOST_MESH_BYTES, readMesh } from "../survey/file/readMesh.js";
import { CannotSurvey } from "../survey/refusal.js";
import { type SurveyOptions as SurveyMesh, survey } from "../survey/survey.js";
import type { Survey } from "../survey/surveyed.js";
import { UNITS, type UnitName } from "../survey/unit.js";
import { UnusableInput } from "./exitStatus.js";
import { complain, printDesign } from "./output.js";

interface SurveyOptions {
  readonly output?: string;
  readonly unit?: UnitName;
  readonly inches?: true;
  readonly otherTurn?: true;
  readonly name?: string;
}

const CARD = `
STL, OBJ and 3MF are read; several files are parts of one instrument that stand where they belong. Only the numbers are kept.
A model has a maker: respect its licence before you print, change, share or sell it or anything made from it.`;

export function addSurveyCommand(root: Command, settings: AnalysisSettings): void {
  root
    .command("survey")
    .description("turn a printable model into a design: bore, mouth and holes, each with its ±")
    .argument("<mesh...>", "STL, OBJ or 3MF files")
    .option("-o, --output <file>", "write it to a new file instead of printing it")
    .addOption(new Option("--unit <unit>", "of the file's numbers, where it states none").choices(Object.keys(UNITS)))
    .option("--other-turn", "where the rims of a vessel's halves fit in more than one way, use the other one")
    .option("--inches", "write the design in inches")
    .option("--name <name>", "the instrument's name; without it, the file's")
    .addHelpText("after", CARD)
    .action((files: string[], options: SurveyOptions) => {
      const { output } = options;
      if (output !== undefined && !/\.bore\.ya?ml$/.test(output))
        throw new UnusableInput(output, "is not a design's name: end it in .bore.yaml");
      if (output !== undefined && existsSync(output))
        throw new UnusableInput(output, "exists already: choose another name");
      const found = surveyed(files, { unit: options.unit, otherTurn: options.otherTurn });
      const isInches = options.inches || (found.unit.name === "in" && found.unit.isStated);
      const name = options.name?.replace(/\s+/g, " ").trim() || basename(files[0] ?? "").replace(/\.\w+$/, "");
      const { text, analysis } = surveyedDesign(found, name, isInches ? "in" : "mm", settings);
      complain([
        `${name}: ${familyInWords(found)}, ${analysis.fingerings.length} fingerings proposed.`,
        ...found.notes,
        ...found.questions.map((question) => `? ${question}`),
        "The model belongs to its maker: respect its licence before you print, change, share or sell it or anything made from it.",
      ]);
      if (output === undefined) printDesign(text);
      else writeFiles([{ file: output, text }]);
    });
}

/** @throws UnusableInput, FileTrouble */
function surveyed(files: readonly string[], options: SurveyMesh): Survey {
  const parts: Float64Array[] = [];
  let millimetres: number | undefined;
  let current = files[0] ?? "";
  try {
    for (const file of files) {
      current = file;
      const mesh = readMesh(readBytes(file, MOST_MESH_BYTES), file);
      millimetres ??= mesh.millimetres;
      for (const part of mesh.parts) parts.push(part);
    }
    return survey({ parts, millimetres }, options);
  } catch (error) {
    if (error instanceof CannotSurvey) throw new UnusableInput(current, lowerFirst(error.message));
    throw error;
  }
}

function lowerFirst(text: string): string {
  return `cannot be surveyed. ${text}`.replace(/\.$/, "");
}

function familyInWords({ body }: Survey): string {
  if (body.kind === "pipes") return `a pan pipe of ${body.pipes.length}`;
  const holes = `${body.holes.length} ${body.holes.length === 1 ? "hole" : "holes"}`;
  if (body.kind === "vessel") return `a vessel of ${body.volume.cm3.toFixed(1)} cm³, ${holes}`;
  const kind = { window: "a duct flute", hole: "a side-blown flute", rim: "an end-blown flute" }[body.mouth.kind];
  return `${kind}, ${holes}`;
}
