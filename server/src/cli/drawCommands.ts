/** `borewright draw` and `borewright chart`: sheets of paper, as SVG or PDF. */
import { type Command, Option } from "commander";
import { outlineOf } from "../design/outline/index.js";
import { findingLine } from "../document/findingLine.js";
import { type NewFile, writeFiles } from "../files/writeFiles.js";
import { chartSheet } from "../make/drawing/chart.js";
import { drawSheets } from "../make/drawing/draw.js";
import { sheetFiles } from "../make/drawing/files.js";
import { PAPER, type PaperName, type Sheet } from "../make/drawing/sheet.js";
import { suffixed } from "../make/file/madeFile.js";
import { UnusableInput } from "./exitStatus.js";
import { type ReadFile, readDesignFile } from "./files.js";
import { instrumentIn } from "./instrumentIn.js";
import { type AirOptions, number, settingsFrom, withAir } from "./options.js";
import { complain } from "./output.js";
import { analyseFile } from "./pitch.js";

interface PaperOptions {
  readonly output?: string;
  readonly instrument?: number;
}

export function drawCommand(root: Command): void {
  root
    .command("draw")
    .description("draw a dimensioned section, a table of holes and a full-size drilling template")
    .argument("<file>", "design file")
    .option("-o, --output <file>", "what to write: a .pdf file, or a .svg file for each sheet")
    .addOption(new Option("--paper <size>", "what it is drawn on").choices(Object.keys(PAPER)).default("A4"))
    .option("--instrument <number>", "which one, if the file holds several", number)
    .action((file: string, options: PaperOptions & { paper: PaperName }) => {
      const output = checkedOutput(options.output);
      const read = readDesignFile(file);
      const { resolution } = soundDocument(read, options.instrument);
      const outline = outlineOf(resolution);
      if (outline === undefined)
        throw new UnusableInput(file, "does not say enough of the instrument's body to be drawn");
      const { unitMillimetres: unit } = resolution.instrument;
      const sheets = drawSheets(outline, { paper: options.paper, unit, unitName: resolution.draft.unit });
      deliver(sheets, output, read);
    });
}

export function chartCommand(root: Command): void {
  withAir(root.command("chart").description("draw a fingering chart to print"))
    .argument("<file>", "design file")
    .option("-o, --output <file>", "what to write: a .svg or .pdf file")
    .addOption(
      new Option("--notes <how>", "on a staff with their names, or by name alone")
        .choices(["staff", "names"])
        .default("staff"),
    )
    .option("--cents", "each note's predicted deviation under it")
    .option("--instrument <number>", "which one, if the file holds several", number)
    .action((file: string, options: PaperOptions & AirOptions & { cents?: true; notes: "staff" | "names" }) => {
      const output = checkedOutput(options.output);
      const read = readDesignFile(file);
      const { resolution } = soundDocument(read, options.instrument);
      const analysis = analyseFile(read, settingsFrom(options))[instrumentIn(read, options.instrument)];
      if (analysis === undefined || analysis.fingerings.length === 0)
        throw new UnusableInput(file, "has no fingerings to show: list some under `fingerings`");
      const { notes, cents } = options;
      const sheet = chartSheet(analysis, { cents: cents === true, notes, outline: outlineOf(resolution) });
      deliver([sheet], output, read);
    });
}

function checkedOutput(output: string | undefined): string {
  if (output === undefined) throw new UnusableInput("-o", "is missing: name the file to write, such as -o whistle.pdf");
  if (!/\.(svg|pdf)$/i.test(output)) throw new UnusableInput(output, "end its name in .svg or .pdf");
  return output;
}

/** @throws UnusableInput with every error's place */
function soundDocument(read: ReadFile, instrument: number | undefined): ReadFile["design"]["documents"][number] {
  const document = read.design.documents[instrumentIn(read, instrument)];
  const errors = (document?.findings ?? []).filter(({ severity }) => severity === "error");
  if (document === undefined || errors.length > 0)
    throw new UnusableInput(
      read.file,
      "cannot be drawn:",
      errors.map((finding) => findingLine(read, finding)),
    );
  return document;
}

function deliver(sheets: readonly Sheet[], output: string, read: ReadFile): void {
  const files = sheetFiles(sheets, /\.pdf$/i.test(output) ? "pdf" : "svg").map(
    ({ suffix, bytes }): NewFile => ({ file: suffixed(output, suffix), text: bytes }),
  );
  writeFiles(files, read);
  complain(files.map(({ file }) => `Written: ${file}`));
}
