/** The options of `borewright bench`. */
import type { Command } from "commander";
import { jsonText } from "../escape/json.js";
import { writeFiles } from "../files/writeFiles.js";
import { benchFile, benchJson, benchLines, doneLines, drawFlatFile } from "./bench.js";
import { UnusableInput } from "./exitStatus.js";
import { readDesignFile } from "./files.js";
import { type AirOptions, number, settingsFrom, withAir } from "./options.js";
import { complain, print, printData, printDesign } from "./output.js";

interface BenchOptions extends AirOptions {
  readonly instrument?: number;
  readonly temperature?: number;
  readonly within?: number;
  readonly done?: number;
  readonly drawFlat?: true;
  readonly write?: true;
  readonly json?: true;
}

export function benchCommand(root: Command): void {
  withAir(root.command("bench").description("show the order of work on a finished instrument, from its measured notes"))
    .argument("<file>", "design file, its `measured` notes in Hz or in a tuner's cents")
    .option("--temperature <°C>", "of the workshop; left out, that of the measured notes", number)
    .option("--within <cents>", "how close is close enough on the bench", number)
    .option("--instrument <number>", "which one, if the file holds several", number)
    .option(
      "--done <steps>",
      "how many steps are done: writes the design with their sizes, without the notes measured before",
      number,
    )
    .option(
      "--draw-flat",
      "before printing: brings the design into tune, then draws mouth and holes small and the foot long, as its `bench` says",
    )
    .option("--write", "with --done or --draw-flat: change the file in place")
    .option("--json", "print data instead of text")
    .action((file: string, options: BenchOptions) => {
      const { instrument, temperature, within, done } = options;
      if (options.write && done === undefined && !options.drawFlat)
        throw new UnusableInput("--write", "needs to know what is done: add --done and the number of steps");
      if (options.drawFlat && done !== undefined)
        throw new UnusableInput("--draw-flat", "is for a design that is not printed yet, --done for one that is");
      if (within !== undefined && !(within > 0)) throw new UnusableInput("--within", "takes cents above 0");
      const read = readDesignFile(file);
      if (options.drawFlat) {
        const { text, lines } = drawFlatFile(read, instrument, settingsFrom(options));
        if (options.write) writeFiles([{ file, text }], read);
        complain(lines);
        if (options.json) printData(jsonText({ file, text, remarks: lines }));
        else if (!options.write) printDesign(text);
        return;
      }
      const result = benchFile(read, { instrument, temperature, within, done }, settingsFrom(options));
      if (options.write && result.text !== undefined) writeFiles([{ file, text: result.text }], read);
      if (result.text !== undefined) complain(doneLines(result));
      if (options.json) printData(benchJson(result));
      else if (result.text === undefined) print(benchLines(result));
      else if (!options.write) printDesign(result.text);
    });
}
