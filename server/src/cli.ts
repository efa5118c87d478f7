/** The command line: a thin shell over the same services as the language server. */
import { join } from "node:path";
import { pathToFileURL } from "node:url";
import { Argument, Command, Option } from "commander";
import packageJson from "../../package.json";
import { benchCommand } from "./cli/benchCommand.js";
import { calibrateFile, calibrationJson, calibrationTable, unusedNotes } from "./cli/calibrate.js";
import { checkCommand } from "./cli/check/command.js";
import { checksAsThread } from "./cli/check/thread.js";
import { checkOnThreads } from "./cli/check/threads.js";
import { compareCommand } from "./cli/compare/command.js";
import { completionScript, SHELLS, type Shell } from "./cli/completion.js";
import { addCorrectCommand } from "./cli/correctCommand.js";
import { chartCommand, drawCommand } from "./cli/drawCommands.js";
import { addExamples } from "./cli/examples.js";
import { UnusableInput } from "./cli/exitStatus.js";
import { tellFault, toldFailure } from "./cli/failure.js";
import { type ReadFile, readDesignFile } from "./cli/files.js";
import { fingeringsCommand } from "./cli/fingeringsCommand.js";
import { keyTables } from "./cli/keyTable.js";
import { addListenCommand } from "./cli/listenCommand.js";
import { manPage } from "./cli/manPage.js";
import { addNewCommand } from "./cli/newCommand.js";
import { type AirOptions, number, settingsFrom, withAir } from "./cli/options.js";
import { complain, print, printData, printDesign, watchOutput } from "./cli/output.js";
import { analyseFile, pitchReport, pitchTable, predictFile } from "./cli/pitch.js";
import { copyName, rekeyFile, rekeyJson, rekeySummary, retuneFile, wantedKeys } from "./cli/rekey.js";
import { responseCurve, responseReport, responseTable } from "./cli/response.js";
import { scaleCommand } from "./cli/scaleCommand.js";
import { solidCommand } from "./cli/solidCommand.js";
import { addSurveyCommand } from "./cli/surveyCommand.js";
import { REKEY_METHODS, type RekeyMethod, type RekeyResult } from "./design/rekey/rekeyResult.js";
import { USUAL_GROWTH } from "./design/rekey/usualGrowth.js";
import { DEFAULT_SETTINGS } from "./design/settings.js";
import { jsonText } from "./escape/json.js";
import { spaced } from "./escape/table.js";
import { writeFiles } from "./files/writeFiles.js";
import { tellFaultsTo } from "./instrument/contained.js";
import { worksAsThread, workThread } from "./language/node/thread.js";

const RULE_PAGES = join(__dirname, "..", "docs", "rules");
/** As reports call us. */
const TOOL = {
  version: packageJson.version,
  homepage: (packageJson as { homepage?: string }).homepage,
  rulePages: RULE_PAGES,
};

function pitchCommand(root: Command): void {
  withAir(root.command("pitch").description("print a table of every fingering: target, prediction, cents"))
    .argument("<file...>", "design files")
    .option("--bands", "a column for how sure each note is")
    .option("--json", "print data instead of a table")
    .action((files: string[], options: AirOptions & { bands?: true; json?: true }) => {
      const predicted = files.map(readDesignFile).flatMap((read) => predictFile(read, settingsFrom(options)));
      if (options.json) printData(jsonText(predicted.map(pitchReport)));
      else print(spaced(predicted.map((each) => pitchTable(each, options.bands))));
    });
}

function rekeyCommand(root: Command): void {
  withAir(root.command("rekey").description("move the design to another key; print it, or write it with --write or -o"))
    .argument("<file>", "design file")
    .option("--to <notes>", "the new key, like G4 or Bb3; several with commas write a set")
    .addOption(new Option("--by <method>", "how").choices(REKEY_METHODS).default("print-scale"))
    .addOption(
      new Option(
        "--growth [power]",
        `by refit: bore and mouth grow by this power of the length's growth, 0 to 1; without a number, ${USUAL_GROWTH}`,
      )
        .preset(String(USUAL_GROWTH))
        .argParser(growthPower),
    )
    .option("--instrument <number>", "which one, if the file holds several", number)
    .option("--write", "change the file in place")
    .option("-o, --output <path>", "write the result to another file; a set of keys into a folder")
    .option("--json", "print data instead of the design")
    .option("--table", "print scales and lengths for all keys within an octave, pure ratios beside them")
    .action(rekeyAction);
}

function retuneCommand(root: Command): void {
  withAir(root.command("retune").description("bring the design into tune in its own key by moving and resizing holes"))
    .argument("<file>", "design file")
    .option("--keep-bore", "change holes only")
    .option("--instrument <number>", "which one, if the file holds several", number)
    .option("--write", "change the file in place")
    .option("-o, --output <file>", "write the result to another file")
    .option("--json", "print data instead of the design")
    .action((file: string, options: RekeyOptions & { keepBore?: true }) => {
      mustNameOneWay(options);
      const read = readDesignFile(file);
      const freedom = options.keepBore ? "holes" : "all";
      deliver(read, [{ result: retuneFile(read, freedom, options.instrument, settingsFrom(options)) }], options);
    });
}

function responseCommand(root: Command): void {
  withAir(root.command("response").description("show how strongly and stably every fingering responds"))
    .argument("<file...>", "design files")
    .option("--curve <note>", "the impedance curve of this note instead, as comma-separated values")
    .option("--json", "print data instead of a table")
    .action((files: string[], options: AirOptions & { curve?: string; json?: true }) => {
      const analyses = files
        .map(readDesignFile)
        .flatMap((read) => analyseFile(read, settingsFrom(options)).map((analysis) => ({ file: read.file, analysis })));
      const { curve, json } = options;
      if (curve !== undefined)
        print(spaced(analyses.map(({ file, analysis }) => responseCurve(file, analysis, curve))));
      else if (json) printData(jsonText(analyses.map(({ file, analysis }) => responseReport(file, analysis))));
      else print(spaced(analyses.map(({ file, analysis }) => responseTable(file, analysis))));
    });
}

function calibrateCommand(root: Command): void {
  withAir(root.command("calibrate").description("fit the mouth to the measured notes of a design"))
    .argument("<file>", "design file with `measured` notes")
    .option("--fit-air", "fit the air's temperature, too, where no measured note states one")
    .option("--write", "write what was fitted into the file")
    .option("--json", "print data instead of a table")
    .action((file: string, options: AirOptions & { fitAir?: true; write?: true; json?: true }) => {
      const read = readDesignFile(file);
      const calibrated = calibrateFile(read, settingsFrom(options), { fitAir: options.fitAir === true });
      if (options.write) writeFiles([{ file, text: calibrated.text }], read);
      const unused = unusedNotes(read);
      if (unused.length > 0) complain(unused);
      if (options.json) printData(calibrationJson(file, calibrated));
      else print(calibrationTable(calibrated));
    });
}

function listenCommand(root: Command): void {
  addListenCommand(root, number, DEFAULT_SETTINGS);
}

function correctCommand(root: Command): void {
  addCorrectCommand(root, DEFAULT_SETTINGS);
}

function newCommand(root: Command): void {
  addNewCommand(root, number, DEFAULT_SETTINGS);
}

function surveyCommand(root: Command): void {
  addSurveyCommand(root, DEFAULT_SETTINGS);
}

function serveCommand(root: Command): void {
  root
    .command("serve")
    .description("run the language server, for any editor")
    .option("--stdio", "speak over standard input and output")
    .addOption(new Option("--node-ipc", "speak over the channel of the Node process that started it").hideHelp())
    .addOption(new Option("--clientProcessId <number>", "exit when this process ends").hideHelp())
    .action(async ({ nodeIpc }: { nodeIpc?: true }) => {
      const { serve } = await import("./language/node/serve.js");
      const { translationFor } = await import("./language/node/translationFor.js");
      const { workspaceOnDisk } = await import("./language/workspace/register.js");
      serve(nodeIpc ? "node-ipc" : "stdio", {
        rulePages: pathToFileURL(RULE_PAGES).href,
        translationFor: (locale) => translationFor(join(__dirname, "l10n"), locale),
        longWork: workThread(__filename),
        // On one thread: the others are the maker's.
        workspace: workspaceOnDisk((files, checkSettings, onDone, signal) =>
          checkOnThreads(files, { program: __filename, settings: checkSettings, withFixes: false }, 1, onDone, signal),
        ),
      });
    });
}

function completionCommand(root: Command): void {
  root
    .command("completion")
    .description("print a script that completes commands and options in the shell")
    .addArgument(new Argument("<shell>", "which").choices(SHELLS))
    .action((shell: Shell) => print(completionScript(root, shell)));
}

/** For the build, which makes the packed manual page with it. */
function manPageCommand(root: Command): void {
  root.command("man-page", { hidden: true }).action(() => print(manPage(root, packageJson.version)));
}

/** In the order the help lists them. */
const COMMANDS = [
  newCommand,
  surveyCommand,
  pitchCommand,
  (root: Command) => checkCommand(root, TOOL, __filename),
  rekeyCommand,
  scaleCommand,
  retuneCommand,
  responseCommand,
  fingeringsCommand,
  calibrateCommand,
  benchCommand,
  listenCommand,
  correctCommand,
  compareCommand,
  solidCommand,
  drawCommand,
  chartCommand,
  serveCommand,
  completionCommand,
  manPageCommand,
];

function program(): Command {
  const root = new Command("borewright")
    .description("Predicts what every fingering of a wind instrument design will sound, and moves it to another key.")
    .version(packageJson.version)
    .exitOverride()
    // What the user has typed comes back in complaints; every command takes this over.
    .configureOutput({ writeErr: (text) => complain(text.trimEnd().split("\n")) })
    .showHelpAfterError("(borewright --help shows the commands)");
  for (const add of COMMANDS) add(root);
  for (const each of root.commands)
    each.showHelpAfterError(`(borewright ${each.name()} --help shows what it takes, with examples)`);
  addExamples(root);
  return root;
}

function growthPower(text: string): number {
  const power = Number(text);
  if (!(power >= 0 && power <= 1)) throw new UnusableInput("--growth", `${text} is not a power from 0 to 1`);
  return power;
}

interface RekeyOptions extends AirOptions {
  growth?: number;
  readonly to?: string;
  readonly table?: true;
  readonly by: RekeyMethod;
  readonly instrument?: number;
  readonly write?: true;
  readonly output?: string;
  readonly json?: true;
}

function rekeyAction(file: string, options: RekeyOptions): void {
  mustNameOneWay(options);
  const settings = settingsFrom(options);
  if (options.table) {
    print(keyTables(readDesignFile(file), settings));
    return;
  }
  const keys = wantedKeys(options.to);
  const [folder, { by, instrument, growth }] = [options.output, options];
  if (keys.length > 1 && folder === undefined)
    throw new UnusableInput("-o", "is missing: several keys are written into a folder");
  const read = readDesignFile(file);
  const rekeyed = keys.map((to) => ({
    result: rekeyFile(read, { to, by, instrument, growth }, settings),
    ...(keys.length > 1 && folder !== undefined ? { copy: join(folder, copyName(file, to)) } : {}),
  }));
  deliver(read, rekeyed, options);
}

function mustNameOneWay({ write, output }: RekeyOptions): void {
  if (write && output !== undefined) throw new UnusableInput("--write", "and -o are two ways to write: choose one");
}

/** Writes or prints the results, and says on stderr what was done. `copy` is the file of one among several. */
function deliver(
  read: ReadFile,
  results: readonly { readonly result: RekeyResult; readonly copy?: string }[],
  options: RekeyOptions,
): void {
  const destination = options.write ? read.file : options.output;
  const written = results.flatMap(({ result: { text }, copy = destination }) =>
    copy === undefined ? [] : [{ file: copy, text }],
  );
  writeFiles(written, read);
  for (const { result } of results) {
    complain(rekeySummary(result));
    if (options.json) printData(rekeyJson(read.file, result));
    else if (destination === undefined) printDesign(result.text);
  }
}

/** Runs one command; the exit status is left in `process.exitCode`. Tests load the bundle and call this command after command. */
export async function run(words: readonly string[]): Promise<void> {
  tellFaultsTo(tellFault);
  try {
    await program().parseAsync(words, { from: "user" });
  } catch (error) {
    process.exitCode = toldFailure(error);
  }
}

// `serve` starts this program a second time, as the thread of its long work, and `check` for each of its threads.
if (!checksAsThread() && !worksAsThread() && require.main === module) {
  watchOutput();
  void run(process.argv.slice(2));
}
