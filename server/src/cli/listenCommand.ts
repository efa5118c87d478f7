/** The options of `borewright listen`. */
import { type Command, Option } from "commander";
import type { AnalysisSettings } from "../design/settings.js";
import { writeFiles } from "../files/writeFiles.js";
import { SAMPLE_KINDS, type SampleKind } from "../sound/sampleFormat.js";
import { checkedFormat } from "../sound/wavHeader.js";
import { FINDINGS, FINE, UnusableInput } from "./exitStatus.js";
import { readDesignFile } from "./files.js";
import { isAsked, listenJson, listenTable, listenTo, noteLine, withMeasured } from "./listen.js";
import { complain, print, printData } from "./output.js";

interface ListenOptions {
  readonly design?: string;
  readonly instrument?: number;
  readonly temperature?: number;
  readonly raw?: SampleKind;
  readonly rate: number;
  readonly channels: number;
  readonly write?: true;
  readonly replace?: true;
  readonly live?: true;
  readonly json?: true;
}

/** For players, behind `--help`. Common practice, no source. */
const CARD = `
For the player: warm the instrument for five minutes. Find a quiet room, a metre from the microphone, noise correction off,
and read the air's temperature. Play each note for two seconds, tongued, with an ordinary breath and no vibrato, a short rest
after each: the scale up and down, twice. Four plays of a note are good to about half of one play's scatter.`;

/** @param number reads a number or complains, `settings` what predictions are made with where the design is silent */
export function addListenCommand(root: Command, number: (text: string) => number, settings: AnalysisSettings): void {
  root
    .command("listen")
    .description("find the notes of a recording; with a design, match them to its fingerings")
    .argument("<recording>", "a WAV file, or - for standard input")
    .option("--design <file>", "the design that was played")
    .option("--instrument <number>", "which one, if the file holds several", number)
    .option("--temperature <°C>", "of the air in the instrument when it was played", number)
    .addOption(new Option("--raw <kind>", "raw samples of this kind instead of a WAV file").choices(SAMPLE_KINDS))
    .option("--rate <Hz>", "their sample rate", number, 48_000)
    .option("--channels <number>", "their number of channels", number, 1)
    .option("--live", "print each note as it ends")
    .option("--write", "write what was measured into the design")
    .option("--replace", "with --write: also overwrite notes measured before")
    .option("--json", "print data instead of a table")
    .addHelpText("after", CARD)
    .action(async (file: string, options: ListenOptions) => {
      if (options.write && options.design === undefined)
        throw new UnusableInput("--write", "needs the design to write into: add --design FILE");
      const { raw: kind, rate, channels } = options;
      const result = await listenTo(
        {
          file,
          raw: kind && rawFormat({ kind, rate, channels }),
          design: options.design === undefined ? undefined : readDesignFile(options.design),
          instrument: options.instrument,
          temperature: options.temperature,
          onNote: options.live ? (note) => print([noteLine(note)]) : undefined,
        },
        settings,
      );
      if (options.json) printData(listenJson(result));
      else print(listenTable(result));
      const { design } = result;
      if (options.write && design !== undefined && !design.heard.matching.doubtful) {
        const { text, kept } = withMeasured(design, options.replace ?? false);
        writeFiles([{ file: design.read.file, text }], design.read);
        if (kept.length > 0)
          complain([`Measured before and left as it is: ${kept.join(", ")} (--replace overwrites it).`]);
      }
      process.exitCode = isAsked(result) ? FINDINGS : FINE;
    });
}

/** @throws UnusableInput */
function rawFormat(format: Parameters<typeof checkedFormat>[0]) {
  try {
    return checkedFormat(format);
  } catch (error) {
    throw new UnusableInput("--raw", (error as Error).message.replace(/\.$/, ""));
  }
}
