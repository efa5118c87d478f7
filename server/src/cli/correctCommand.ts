/** The options of `borewright correct`. */
import type { Command } from "commander";
import type { AnalysisSettings } from "../design/settings.js";
import { readDesign } from "../document/read.js";
import { writeFiles } from "../files/writeFiles.js";
import { benchFile, benchLines } from "./bench.js";
import { correctFile, correctJson, correctLines } from "./correct.js";
import { UnusableInput } from "./exitStatus.js";
import { readDesignFile } from "./files.js";
import { isAsked, listenTable } from "./listen.js";
import { number } from "./options.js";
import { complain, print, printData } from "./output.js";

interface CorrectOptions {
  readonly temperature?: number;
  readonly instrument?: number;
  readonly earlier?: readonly string[];
  readonly keepBore?: true;
  readonly calibrateOnly?: true;
  readonly bench?: true;
  readonly write?: true;
  readonly output?: string;
  readonly json?: true;
}

export function addCorrectCommand(root: Command, settings: AnalysisSettings): void {
  root
    .command("correct")
    .description(
      "turn a recording of a print into the next design: measure its notes, calibrate the mouth, bring every note into tune",
    )
    .argument("<file>", "the design that was printed")
    .argument("[recording]", "a WAV file of it; without one, the design's own `measured` notes")
    .option("--temperature <°C>", "of the air in the instrument when it was played", number)
    .option("--instrument <number>", "which one, if the file holds several", number)
    .option(
      "--earlier <file>",
      "an earlier print's design with its measured notes, by the same printer and player: fit to them, too (repeat for each)",
      (file: string, before: readonly string[] = []) => [...before, file],
    )
    .option("--keep-bore", "change holes only")
    .option("--calibrate-only", "change no hole: for an instrument that stays as it is, or for the bench")
    .option("--bench", "change no hole, and show the order of work on this instrument at the bench")
    .option("--write", "change the design in place")
    .option("-o, --output <file>", "write the result to another file")
    .option("--json", "print data instead of tables")
    .action(async (file: string, recording: string | undefined, options: CorrectOptions) => {
      const { write, output, temperature, instrument, earlier = [], json } = options;
      if (write && output !== undefined) throw new UnusableInput("--write", "and -o are two ways to write: choose one");
      const read = readDesignFile(file);
      const freedom = options.calibrateOnly || options.bench ? undefined : options.keepBore ? "holes" : "all";
      const result = await correctFile(read, { recording, temperature, instrument, earlier, freedom }, settings);
      const destination = write ? file : output;
      if (destination !== undefined) writeFiles([{ file: destination, text: result.text }], read);
      if (json) printData(correctJson(file, result));
      else {
        if (result.heard !== undefined && isAsked(result.heard)) complain(listenTable(result.heard));
        print(correctLines(result));
        if (options.bench) {
          const calibrated = { ...read, design: readDesign(result.text, read.design.syntax) };
          const asked = { instrument, temperature, within: undefined, done: undefined };
          print(["", ...benchLines(benchFile(calibrated, asked, settings))]);
        }
        if (destination === undefined)
          complain(["Nothing was written: --write changes the design, -o FILE writes another."]);
      }
    });
}
