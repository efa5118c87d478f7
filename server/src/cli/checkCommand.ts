/** The options of `borewright check`. */
import { type Command, InvalidArgumentError, Option } from "commander";
import { readStream } from "../files/readStream.js";
import { type CheckSettings, checkPaths, FAIL_ON, type FailOn, fails, type GivenFile, ruleLevel } from "./check.js";
import { painter } from "./colour.js";
import { FINDINGS, FINE, UNUSABLE, UnusableInput } from "./exitStatus.js";
import { MOST_BYTES } from "./files.js";
import { type AirOptions, number, settingsFrom, withAir } from "./options.js";
import { complain, printData } from "./output.js";
import { plural } from "./plural.js";
import { FORMATS, type Format, report } from "./reports/index.js";
import type { SarifTool } from "./reports/sarif.js";

/** Standard input, as a path. */
const STANDARD_INPUT = "-";

interface CheckOptions extends AirOptions {
  readonly format: Format;
  readonly failOn: FailOn;
  readonly maxWarnings?: number;
  readonly stdinName: string;
  readonly rule?: CheckSettings["rules"];
}

/** @param tool as the reports call us */
export function checkCommand(root: Command, tool: SarifTool): void {
  withAir(root.command("check").description("all findings of files and folders"))
    .argument(
      "<path...>",
      "design files, folders that hold some, patterns such as designs/alto-*, or - for standard input",
    )
    .addOption(new Option("--format <format>", "how to print").choices(FORMATS).default("text"))
    .addOption(
      new Option("--fail-on <severity>", "exit with 1 from this severity on").choices(FAIL_ON).default("error"),
    )
    .option("--stdin-name <file>", "what to call standard input; .json at its end says that it is JSON", STANDARD_INPUT)
    .option("--max-warnings <number>", "exit with 1 where there are more warnings", wholeNumber)
    .option(
      "--rule <code=level>",
      "grade findings: off, information, warning or error; the design's `rules` win",
      ruleLevel,
    )
    .action(async (paths: string[], options: CheckOptions) => {
      const settings = { ...settingsFrom(options), rules: options.rule ?? {} };
      const given = paths.includes(STANDARD_INPUT) ? [await standardInput(options.stdinName)] : [];
      const named = paths.filter((path) => path !== STANDARD_INPUT);
      const { files, incomplete } = checkPaths(named, settings, given);
      if (files.length === 0 && !incomplete)
        throw new UnusableInput(paths.join(", "), "no *.bore.yaml, *.bore.yml or *.bore.json there");
      const { format, failOn, maxWarnings = Number.POSITIVE_INFINITY } = options;
      const text = report(files, { format, failOn, tool, paint: painter() });
      if (text !== "") printData(text);
      const warnings = files
        .flatMap(({ findings }) => findings)
        .filter(({ severity }) => severity === "warning").length;
      if (warnings > maxWarnings) complain([`${plural(warnings, "warning")}: --max-warnings allows ${maxWarnings}.`]);
      process.exitCode = incomplete ? UNUSABLE : fails(files, failOn) || warnings > maxWarnings ? FINDINGS : FINE;
    });
}

/** Rejects with FileTrouble. */
async function standardInput(name: string): Promise<GivenFile> {
  return { name, bytes: await readStream(process.stdin, name, MOST_BYTES) };
}

/** @throws InvalidArgumentError */
function wholeNumber(text: string): number {
  const value = number(text);
  if (!Number.isInteger(value) || value < 0) throw new InvalidArgumentError("write a whole number, 0 or more.");
  return value;
}
