/** The options of `borewright solid`. */
import type { Command } from "commander";
import packageJson from "../../../package.json";
import { writeFiles } from "../files/writeFiles.js";
import { readDesignFile } from "./files.js";
import { instrumentIn } from "./instrumentIn.js";
import { number } from "./options.js";
import { complain, print, printData } from "./output.js";
import { formatOf, namedFiles, solidJson, solidOf } from "./solid.js";

interface SolidOptions {
  readonly output?: string;
  readonly instrument?: number;
  readonly json?: true;
}

export function solidCommand(root: Command): void {
  root
    .command("solid")
    .description("make printable parts of the instrument, and a sheet on printing and assembly")
    .argument("<file>", "design file")
    .option("-o, --output <file>", "what to write: a .3mf file with all parts, or a .stl file for each")
    .option("--instrument <number>", "which one, if the file holds several", number)
    .option("--json", "print data instead of the sheet")
    .action(async (file: string, options: SolidOptions) => {
      const format = formatOf(options.output);
      const read = readDesignFile(file);
      const solid = await solidOf(
        read,
        instrumentIn(read, options.instrument),
        format,
        `Borewright ${packageJson.version}`,
      );
      const written = namedFiles(options.output ?? "", solid);
      writeFiles(written, read);
      complain(written.map((each) => `Written: ${each.file}`));
      if (options.json) printData(solidJson(file, solid, written));
      else print(solid.sheet.split("\n"));
    });
}
