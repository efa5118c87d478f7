/** The command line: a thin shell over the same services as the language server. */
import { mkdirSync, writeFileSync } from "node:fs";
import { dirname, join } from "node:path";
import { pathToFileURL } from "node:url";
import { Command, CommanderError, InvalidArgumentError, Option } from "commander";
import packageJson from "../../package.json";
import { calibrateFile, calibrationJson, calibrationTable, unusedNotes } from "./cli/calibrate.js";
import { type CheckSettings, checkFile, FAIL_ON, type FailOn, fails, ruleLevel } from "./cli/check.js";
import { FINDINGS, FINE, UNUSABLE, UnusableInput } from "./cli/exitStatus.js";
import { findDesignFiles, readAll, readDesignFile } from "./cli/files.js";
import { keyTable } from "./cli/keyTable.js";
import { analyseFile, pitchReport, pitchTable, predictFile } from "./cli/pitch.js";
import { copyName, rekeyFile, rekeyJson, rekeySummary, retuneFile } from "./cli/rekey.js";
import { FORMATS, type Format, report } from "./cli/reports/index.js";
import { responseCurve, responseReport, responseTable } from "./cli/response.js";
import { REKEY_METHODS, type RekeyMethod, type RekeyResult } from "./design/rekey/rekeyResult.js";
import { type AnalysisSettings, DEFAULT_SETTINGS } from "./design/settings.js";
import { worksAsThread } from "./language/longWork/thread.js";
import { WorkThread } from "./language/longWork/workThread.js";

const print = (text: string) => process.stdout.write(`${text}\n`);
const complain = (text: string) => process.stderr.write(`${text}\n`);

interface AirOptions {
  readonly airTemperature: number;
  readonly tolerance: number;
}

const settingsFrom = ({ airTemperature, tolerance }: AirOptions): AnalysisSettings => ({
  temperature: airTemperature,
  tolerance,
});

function number(text: string): number {
  const value = Number(text);
  if (text.trim() === "" || !Number.isFinite(value)) throw new InvalidArgumentError("write a number.");
  return value;
}

/** Options every command that predicts has; the design's own words win over them. */
function withAir(command: Command): Command {
  return command
    .option(
      "--air-temperature <°C>",
      "air temperature where the design states none",
      number,
      DEFAULT_SETTINGS.temperature,
    )
    .option(
      "--tolerance <cents>",
      "what counts as in tune where the design states nothing",
      number,
      DEFAULT_SETTINGS.tolerance,
    );
}

function pitchCommand(root: Command): void {
  withAir(root.command("pitch").description("table of every fingering: target, prediction, cents"))
    .argument("<file...>", "design files")
    .option("--bands", "a column for how sure each note is")
    .option("--json", "print data instead of a table")
    .action((files: string[], options: AirOptions & { bands?: true; json?: true }) => {
      const predicted = files.map(readDesignFile).flatMap((read) => predictFile(read, settingsFrom(options)));
      if (options.json) print(JSON.stringify(predicted.map(pitchReport), null, 2));
      else print(predicted.map((each) => pitchTable(each, options.bands)).join("\n\n"));
    });
}

function checkCommand(root: Command): void {
  withAir(root.command("check").description("all findings of files and folders"))
    .argument("<path...>", "design files, or folders that hold some")
    .addOption(new Option("--format <format>", "how to print").choices(FORMATS).default("text"))
    .addOption(
      new Option("--fail-on <severity>", "exit with 1 from this severity on").choices(FAIL_ON).default("error"),
    )
    .option(
      "--rule <code=level>",
      "grade findings: off, information, warning or error; the design's `rules` win",
      ruleLevel,
    )
    .action(
      (paths: string[], options: AirOptions & { format: Format; failOn: FailOn; rule?: CheckSettings["rules"] }) => {
        const settings = { ...settingsFrom(options), rules: options.rule ?? {} };
        const { read, unreadable } = readAll(findDesignFiles(paths));
        const checked = read.map((each) => checkFile(each, settings));
        if (checked.length === 0 && unreadable.length === 0)
          throw new UnusableInput(paths.join(", "), "no *.bore.yaml, *.bore.yml or *.bore.json there");
        const text = report(checked, options.format, packageJson.version);
        if (text !== "") print(text);
        // One file that cannot be read must not hide what is to be said of the others.
        for (const { message } of unreadable) complain(message);
        process.exitCode = unreadable.length > 0 ? UNUSABLE : fails(checked, options.failOn) ? FINDINGS : FINE;
      },
    );
}

function rekeyCommand(root: Command): void {
  withAir(root.command("rekey").description("the design in another key; prints it unless told to write"))
    .argument("<file>", "design file")
    .option("--to <notes>", "the new key, like G4 or Bb3; several with commas write a set")
    .addOption(new Option("--by <method>", "how").choices(REKEY_METHODS).default("print-scale"))
    .option("--instrument <number>", "which, where the file holds several", number)
    .option("--write", "change the file in place")
    .option("-o, --output <path>", "write the result to another file; a set of keys into a folder")
    .option("--json", "print data instead of the design")
    .option("--table", "print scales and lengths for all keys within an octave, pure ratios beside them")
    .action(rekeyAction);
}

function retuneCommand(root: Command): void {
  withAir(root.command("retune").description("the design in tune in its own key, by moving and resizing holes"))
    .argument("<file>", "design file")
    .option("--keep-bore", "change holes only")
    .option("--instrument <number>", "which, where the file holds several", number)
    .option("--write", "change the file in place")
    .option("-o, --output <file>", "write the result to another file")
    .option("--json", "print data instead of the design")
    .action((file: string, options: RekeyOptions & { keepBore?: true }) => {
      const read = readDesignFile(file);
      const freedom = options.keepBore ? "holes" : "all";
      deliver(file, retuneFile(read, freedom, options.instrument, settingsFrom(options)), options);
    });
}

function responseCommand(root: Command): void {
  withAir(root.command("response").description("how strongly and firmly every fingering answers"))
    .argument("<file...>", "design files")
    .option("--curve <note>", "the impedance curve of this note instead, as comma-separated values")
    .option("--json", "print data instead of a table")
    .action((files: string[], options: AirOptions & { curve?: string; json?: true }) => {
      const analyses = files
        .map(readDesignFile)
        .flatMap((read) => analyseFile(read, settingsFrom(options)).map((analysis) => ({ file: read.file, analysis })));
      const { curve, json } = options;
      if (curve !== undefined)
        print(analyses.map(({ file, analysis }) => responseCurve(file, analysis, curve)).join("\n\n"));
      else if (json)
        print(
          JSON.stringify(
            analyses.map(({ file, analysis }) => responseReport(file, analysis)),
            null,
            2,
          ),
        );
      else print(analyses.map(({ file, analysis }) => responseTable(file, analysis)).join("\n\n"));
    });
}

function calibrateCommand(root: Command): void {
  withAir(root.command("calibrate").description("the mouth fitted to the measured notes of a design"))
    .argument("<file>", "design file with `measured` notes")
    .option("--write", "write what was fitted into the file")
    .option("--json", "print data instead of a table")
    .action((file: string, options: AirOptions & { write?: true; json?: true }) => {
      const read = readDesignFile(file);
      const calibrated = calibrateFile(read, settingsFrom(options));
      for (const line of unusedNotes(read)) complain(line);
      if (options.write) writeFileSync(file, calibrated.text);
      print(options.json ? calibrationJson(file, calibrated) : calibrationTable(calibrated));
    });
}

function serveCommand(root: Command): void {
  root
    .command("serve")
    .description("the language server, for any editor")
    .option("--stdio", "speak over standard input and output (the only way there is)")
    .action(async () => {
      const { serveStdio } = await import("./language/serveStdio.js");
      serveStdio({
        rulePages: pathToFileURL(join(__dirname, "..", "docs", "rules")).href,
        longWork: new WorkThread(__filename),
      });
    });
}

/** In the order the help lists them. */
const COMMANDS = [
  pitchCommand,
  checkCommand,
  rekeyCommand,
  retuneCommand,
  responseCommand,
  calibrateCommand,
  serveCommand,
];

function program(): Command {
  const root = new Command("borewright")
    .description("Predicts what every fingering of a wind instrument design will sound, and moves it to another key.")
    .version(packageJson.version)
    .exitOverride()
    .showHelpAfterError("(borewright --help shows the commands)");
  for (const add of COMMANDS) add(root);
  return root;
}

interface RekeyOptions extends AirOptions {
  readonly to?: string;
  readonly table?: true;
  readonly by: RekeyMethod;
  readonly instrument?: number;
  readonly write?: true;
  readonly output?: string;
  readonly json?: true;
}

function rekeyAction(file: string, options: RekeyOptions): void {
  const read = readDesignFile(file);
  const settings = settingsFrom(options);
  if (options.table) {
    print(analyseFile(read, settings).map(keyTable).join("\n\n"));
    return;
  }
  const notes = (options.to ?? "").split(",").filter((note) => note !== "");
  const [only, ...others] = notes;
  if (only === undefined) throw new UnusableInput("--to", "is missing: name the new key, like --to G4");
  const wish = { by: options.by, instrument: options.instrument };
  if (others.length === 0) {
    deliver(file, rekeyFile(read, { ...wish, to: only }, settings), options);
    return;
  }
  if (options.output === undefined) throw new UnusableInput("-o", "is missing: several keys are written into a folder");
  for (const to of notes) {
    const destination = join(options.output, copyName(file, to));
    deliver(file, rekeyFile(read, { ...wish, to }, settings), { ...options, output: destination });
  }
}

/** Says what was done on stderr; writes or prints the result. */
function deliver(file: string, result: RekeyResult, options: RekeyOptions): void {
  if (options.write && options.output !== undefined)
    throw new UnusableInput("--write", "and -o are two ways to write: choose one");
  complain(rekeySummary(result));
  const destination = options.write ? file : options.output;
  if (destination !== undefined) {
    mkdirSync(dirname(destination), { recursive: true });
    writeFileSync(destination, result.text);
  }
  if (options.json) print(rekeyJson(file, result));
  else if (destination === undefined) process.stdout.write(result.text);
}

async function main(): Promise<void> {
  try {
    await program().parseAsync();
  } catch (error) {
    if (error instanceof CommanderError) {
      process.exitCode = error.exitCode === 0 ? FINE : UNUSABLE;
    } else if (error instanceof UnusableInput) {
      complain(error.message);
      process.exitCode = UNUSABLE;
    } else {
      throw error;
    }
  }
}

// `serve` starts this program a second time, as the thread of its long work.
if (!worksAsThread()) void main();
